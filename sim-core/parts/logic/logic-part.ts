/** From a logic chip's data (pins, rule, figures by family) to a part of the catalogue. */
import { dip } from '../../board/footprints.ts';
import { type ByFamily, FAMILIES, type Family, type FamilyName, familyParam, type Strength } from '../figures/families.ts';
import { type ChipSpec, constantCurrent, definePart, type Figure, type Params, type PartKind, type Pin } from '../part.ts';
import { answerOf, prepare, RunningLogicChip } from './logic-chip.ts';
import { inputsOf, type LogicRule } from './logic-function.ts';

export interface LogicChip {
  readonly id: string;
  readonly title: string;
  readonly synonyms?: readonly string[];
  /** names in order of pin number; GND, VCC, and NC for a pin that leads nowhere */
  readonly pins: string;
  readonly rule: LogicRule;
  readonly strength: Strength;
  /** true: every input is a Schmitt input */
  readonly schmitt?: true;
  /** what of the chip is not as its family has it */
  readonly own?: Partial<Pick<ChipSpec, 'specialDrive' | 'reaches' | 'noUpperClamps' | 'mostPinCurrent' | 'mostPackageCurrent'>>;
  /** resistors inside from pins to VCC, by name [Ω] */
  readonly pullUps?: Readonly<Record<string, number>>;
  /** levels that control inputs must have for the outputs to drive the bus */
  readonly toRead?: ChipSpec['toRead'];
  /** typical, at 4.5 to 5 V, into what a sheet loads an output with [s]; from memory. A part is made in the families that stand here. */
  readonly delay: ByFamily;
  /** most, from memory [A] */
  readonly supplyCurrent: ByFamily;
}

export function logicPart(chip: LogicChip): PartKind {
  const names = chip.pins.split(' ');
  const inputs = inputsOf(chip.rule, names);
  const outputs = chip.rule.outputs.map((o) => o.name);
  const prepared = prepare(chip.rule, inputs);
  const families = Object.keys(chip.delay) as FamilyName[];
  const specs = new Map(
    families.map((name): [FamilyName, ChipSpec] => {
      const family = FAMILIES[name];
      const { mostInputVolts } = family;
      const times = { delay: chip.delay[name] ?? 0, setup: family.setup, slowest: family.slowest, alive: family.alive };
      return [
        name,
        {
          ...ofFamily(family, chip.strength, chip.schmitt),
          inputs,
          outputs,
          ...(mostInputVolts ? { mostVolts: Object.fromEntries(inputs.map((n) => [n, mostInputVolts])) } : {}),
          ...(chip.toRead ? { toRead: chip.toRead } : {}),
          supplyCurrent: constantCurrent(family.typicalSupply * (chip.supplyCurrent[name] ?? 0), chip.supplyCurrent[name]),
          ...chip.own,
          answers: answerOf(prepared),
          moves: prepared.followers,
          ...(chip.rule.takes?.at === 'edge' ? { clock: chip.rule.takes.pin } : {}),
          start: (bench) => new RunningLogicChip(bench, prepared, times),
        },
      ];
    }),
  );
  const role = (name: string): Pin['role'] => {
    if (name === 'VCC') return 'supply';
    if (name === 'GND') return 'ground';
    if (name === 'NC') return 'none';
    return outputs.includes(name) ? (inputs.includes(name) ? 'both' : 'output') : 'input';
  };
  const familyOf = (p: Params) => p.family as FamilyName;
  return definePart({
    id: chip.id,
    title: chip.title,
    ...(chip.synonyms ? { synonyms: chip.synonyms } : {}),
    group: 'logic',
    params: [familyParam(families)],
    footprint: () => dip(names.length),
    pins: () => names.map((name, i): Pin => ({ pin: String(i + 1), name, role: role(name) })),
    figures: families.flatMap((name) => familyFigures(name, chip)),
    value: familyOf,
    connect(w, p) {
      const spec = specs.get(familyOf(p));
      if (!spec) throw new Error(`${chip.id} is not made as ${p.family}`);
      w.chip(spec);
      const { pullUp } = FAMILIES[familyOf(p)];
      const number = (name: string) => String(names.indexOf(name) + 1);
      const plus = number('VCC');
      if (pullUp) for (const name of inputs) w.junction(plus, number(name), pullUp);
      for (const [name, ohms] of Object.entries(chip.pullUps ?? {})) w.conductor(plus, number(name), 1 / ohms);
    },
  });
}

/** What a chip has from its family. */
export function ofFamily(
  family: Family,
  strength: Strength,
  schmitt?: true,
): Pick<
  ChipSpec,
  | 'supplyPin'
  | 'groundPin'
  | 'input'
  | 'drive'
  | 'promises'
  | 'released'
  | 'mostPinCurrent'
  | 'mostPackageCurrent'
  | 'mostSupply'
  | 'damageFactor'
  | 'mostClampCurrent'
  | 'supplyRange'
  | 'supplyMarks'
  | 'reaches'
  | 'noUpperClamps'
> {
  return {
    supplyPin: 'VCC',
    groundPin: 'GND',
    input: schmitt ? family.schmitt : family.input,
    drive: family.drive[strength],
    promises: family.promises[strength],
    released: family.released,
    mostPinCurrent: family.mostPinCurrent[strength],
    mostPackageCurrent: family.mostPackageCurrent[strength],
    mostSupply: family.mostSupply,
    ...(family.damageFactor === undefined ? {} : { damageFactor: family.damageFactor }),
    ...(family.mostClampCurrent ? { mostClampCurrent: family.mostClampCurrent } : {}),
    supplyRange: family.supplyRange,
    supplyMarks: [family.alive],
    reaches: family.input,
    ...(family.upperClamps ? {} : { noUpperClamps: true }),
  };
}

function familyFigures(name: FamilyName, { strength, delay, supplyCurrent, schmitt, own: special }: LogicChip): Figure[] {
  const family = FAMILIES[name];
  const levels = schmitt ? family.schmitt : family.input;
  const unit = levels.of === 'supply' ? 'of the supply' : 'V';
  const source = schmitt ? (name === 'HC' ? 'SOURCES.md S39' : 'from memory') : family.sources.levels;
  const own = (f: Figure): Figure => ({ ...f, name: `${f.name}, ${name}` });
  return [
    { name: `low level, ${schmitt ? 'typical' : 'highest'}, ${name}`, value: levels.vil, unit, source },
    { name: `high level, ${schmitt ? 'typical' : 'lowest'}, ${name}`, value: levels.vih, unit, source },
    { name: `delay, typical, ${name}`, value: delay[name] ?? 0, unit: 's', source: 'from memory' },
    {
      name: `supply current, typical, ${name}`,
      value: family.typicalSupply * (supplyCurrent[name] ?? 0),
      unit: 'A',
      source: 'from memory',
    },
    { name: `supply current, most, ${name}`, value: supplyCurrent[name] ?? 0, unit: 'A', source: 'from memory' },
    own(special?.mostPinCurrent ?? family.mostPinCurrent[strength]),
    own(special?.mostPackageCurrent ?? family.mostPackageCurrent[strength]),
    own(family.mostSupply),
  ];
}
