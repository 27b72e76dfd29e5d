/** `sheet PLAN`: the build sheet as text: parts, then stage by stage what is put down and what is measured. */
import {
  type BuildSheet,
  type CheckLine,
  checkLines,
  done,
  grouped,
  type SheetStage,
  STAGE_TITLES,
  sayHow,
  sheetFor,
} from '../../sim-core/index.ts';
import { table } from './columns.ts';
import { answer, type ShellCommand } from './command.ts';
import { findPlan } from './plan-file.ts';

export const SHEET: ShellCommand = {
  name: 'sheet',
  means: 'print the build sheet: parts, then what is put down and measured in each stage',
  takes: 'PLAN',
  options: {},
  run({ words: [name = ''] }) {
    const plan = findPlan(name);
    if (!plan.ok) return plan;
    const sheet = sheetFor(plan.value);
    return sheet.ok ? answer(done({ title: plan.value.title, ...sheet.value }), (s) => textOf(s)) : sheet;
  },
};

const textOf = (sheet: BuildSheet & { readonly title: string }): string =>
  [
    sheet.title,
    '',
    ...sheet.cautions.map((c) => `! ${c}`),
    '',
    sheet.holes,
    '',
    table(
      sheet.parts.map((l) => [
        `${l.quantity} ×`,
        [l.title, l.value, l.tolerance === undefined ? undefined : `± ${l.tolerance} %`].filter(Boolean).join(', '),
        l.bands?.join(' ') ?? '',
        l.ids.join(' '),
      ]),
    ),
    ...sheet.images.map(
      ({ memory, file, bytes, checksums: c, says }) =>
        `\n${memory}: ${file}, ${grouped(bytes)} bytes; sum ${c.sum}, CRC-16 ${c.crc16}, CRC-32 ${c.crc32}. ${says}`,
    ),
    ...sheet.stages.flatMap((stage, i) => ['', `${i + 1}. ${STAGE_TITLES[stage.stage]}`, ...stageText(stage, sheet)]),
  ].join('\n');

function stageText({ steps, checks }: SheetStage, { plusWire }: BuildSheet): string[] {
  const lines = steps.map((s) =>
    s.put === 'wire'
      ? [`  ${s.number}`, s.id, `${s.colour}, ${s.places.join(' to ')}`, s.says]
      : ['', s.id, [s.title, s.value, s.bands?.join(' ')].filter(Boolean).join(', '), s.says],
  );
  const found = checkLines(checks);
  const bys = [...new Set(found.map((l) => l.by))];
  return [
    table(lines),
    ...bys.flatMap((by) => [
      '',
      `  ${sayHow(by, plusWire?.id ?? '', plusWire?.hole ?? '')}`,
      table(found.filter((l) => l.by === by).map(checkColumns)),
    ]),
  ];
}

const checkColumns = (l: CheckLine): string[] => [
  '  [ ]',
  l.good,
  [l.first && `${l.first}:`, l.places].filter(Boolean).join(' '),
  `${l.says}${l.drawnWrong ? '. NOT AS DRAWN HERE: fix the plan first' : ''}`,
];
