/** Inputs of a chip that nothing holds and the table does not use, tied in one act: unused address pins and enables to ground, what must be high to plus. */
import type { Leg } from '../board/layout.ts';
import { type Change, join } from '../document/changes.ts';
import { namer } from '../document/edits/ids.ts';
import { reachOf } from '../findings/resistive-reach.ts';
import { toPart, toPin } from '../findings/rule.ts';
import type { ChipInput, ChipSite } from '../run/circuit/sites.ts';
import { compareTexts } from '../units/text-list.ts';
import { expectedPins } from './expected-address.ts';
import type { CandidateFix, ExplanationQuestion, Side } from './explanation-step.ts';
import { freeHole, isRail } from './nearby-holes.ts';

/** Empty where this input is the only such one that its rail would hold, or is one of the table's own. */
export function tieFixes(q: ExplanationQuestion, chip: ChipSite, leg: Leg): CandidateFix[] {
  const used = new Set(expectedPins(q, chip).map((p) => p.leg));
  const alike = chip.inputs.filter((i) => !used.has(i.leg) && floats(q, i));
  const own = alike.find((i) => i.leg === leg);
  const side = own && sideOf(chip, own);
  const together = alike.filter((i) => sideOf(chip, i) === side);
  if (!side || together.length < 2) return [];
  const change = tied(q, together, side);
  if (!change) return [];
  const at = [toPart(chip.placed), ...together.map((i) => toPin(i.leg))];
  const data = { pins: spans(together.map((i) => i.name)), wires: together.length, side };
  return [{ code: 'tie-pins', at, data, change, claims: { code: 'pins-untied', at, data } }];
}

const floats = ({ scene }: ExplanationQuestion, { leg }: ChipInput): boolean =>
  scene.readings.nets[scene.circuit.netOf(leg).index]?.drive === 'floating';

/** What an input that the table does not use is tied to: what reading needs, else ground. */
const sideOf = ({ spec }: ChipSite, { name }: ChipInput): Side => (spec.toRead?.[name] === 'H' ? 'high' : 'low');

/** A wire from each of them to the rail; undefined where one finds no room. */
function tied({ scene: { circuit } }: ExplanationQuestion, inputs: readonly ChipInput[], side: Side): Change | undefined {
  const { plus, minus } = reachOf(circuit);
  const nets = [...(side === 'high' ? plus : minus)];
  const rails = nets.flatMap((n) => circuit.nets.all[n]?.strips.filter(isRail) ?? []);
  const taken = new Map(circuit.layout.taken);
  const free = (strips: readonly string[]): string | undefined => {
    for (const strip of strips) {
      const hole = freeHole({ ...circuit.layout, taken }, strip);
      if (hole === undefined) continue;
      taken.set(hole, '');
      return hole;
    }
    return undefined;
  };
  const name = namer(circuit.plan);
  const wires = inputs.flatMap(({ leg }, i) => {
    const [from, to] = [free([leg.strip]), free(rails)];
    if (from === undefined || to === undefined) return [];
    const item = { id: name('W'), from, to, colour: side === 'high' ? 'red' : 'black' };
    return [{ op: 'insert', list: 'wires', item, index: circuit.plan.wires.length + i } as const];
  });
  return wires.length === inputs.length ? join(...wires) : undefined;
}

/** 'A4 to A10, /CE': names whose numbers follow one another as a span. */
function spans(names: readonly string[]): string {
  const numbered = names.map((name) => ({ name, stem: name.replace(/\d+$/, ''), number: Number(/\d+$/.exec(name)?.[0] ?? Number.NaN) }));
  numbered.sort((a, b) => compareTexts(a.stem, b.stem) || a.number - b.number);
  const runs: { first: string; last: string; stem: string; number: number }[] = [];
  for (const { name, stem, number } of numbered) {
    const run = runs.at(-1);
    if (run?.stem === stem && number === run.number + 1) Object.assign(run, { last: name, number });
    else runs.push({ first: name, last: name, stem, number });
  }
  return runs.map(({ first, last }) => (first === last ? first : `${first} to ${last}`)).join(', ');
}
