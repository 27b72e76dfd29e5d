/** Checks of switches and buttons, supply off: what holds a chip's pin while the pole is open, and what it connects to while the pole is closed. */
import type { Leg } from '../board/layout.ts';
import type { ContactSite } from '../run/circuit/sites.ts';
import { blocksOf, contactsInOrder } from '../run/circuit/switch-settings.ts';
import type { CheckBench } from './check-bench.ts';
import type { MeterCheck, StageCheck } from './stage-check.ts';
import type { StageName } from './stages.ts';

/** A pin that a pole moves shows a resistance that is so many times another one's. Our choice. */
const MOVED = 1.05;

export function poleChecks(bench: CheckBench, stage: StageName): StageCheck[] {
  const { circuit } = bench.after(stage);
  const contacts = contactsInOrder(circuit.contacts).filter((c) => bench.stages.get(c.placed.part.id) === stage);
  return contacts.flatMap((contact) => pinsNear(bench, stage, contact).flatMap((leg) => checksOf(bench, stage, contact, leg)));
}

/** Pins of memories that are in one block with the pole; where there are none, those of other chips. */
function pinsNear(bench: CheckBench, stage: StageName, contact: ContactSite): readonly Leg[] {
  const { circuit } = bench.after(stage);
  const blocks = blocksOf(circuit, contact.legs);
  const near = (memories: boolean) =>
    bench.chips
      .filter((c) => (c.spec.word !== undefined) === memories)
      .flatMap((c) => [...new Set([...c.inputs, ...c.outputs].map((p) => p.leg))])
      .filter((leg) => {
        const net = circuit.nets.ofStrip.get(leg.strip);
        return net !== undefined && blocks.has(circuit.partition.blockOf(circuit.nodeOfNet[net.index] ?? -1));
      });
  const memories = near(true);
  return memories.length > 0 ? memories : near(false);
}

/** The rail that holds the pin while the pole is open, and the one that the closed pole brings nearest. */
function checksOf(bench: CheckBench, stage: StageName, contact: ContactSite, leg: Leg): StageCheck[] {
  const of = bench.poleWords(contact);
  const [pin, words] = [bench.holeOf(leg), bench.pinWords(leg)];
  const read = (rail: '+' | '-', closed: boolean) =>
    bench.reading(stage, {
      by: 'ohms',
      red: pin,
      black: rail === '+' ? bench.plus : bench.minus,
      closed: closed ? [{ part: of.part, pole: of.pole }] : [],
      about: { what: 'pole', of, closed, ...words },
    });
  const rails = (['+', '-'] as const).map((rail) => ({ rail, open: read(rail, false), closed: read(rail, true) }));
  const moved = rails.filter((r) => r.open && r.closed && changes(r.open, r.closed));
  if (moved.length === 0) return [];
  const held = rails.toSorted((a, b) => ohms(a.open) - ohms(b.open))[0];
  const brought = moved.toSorted((a, b) => ohms(a.closed) - ohms(b.closed))[0];
  const level = held && ohms(held.open) < Number.POSITIVE_INFINITY ? (held.rail === '+' ? 'H' : 'L') : undefined;
  const site = bench.whole.chipById.get(leg.part.id);
  const wants = site?.spec.word?.address.includes(words.name) ? 'L' : site?.spec.toRead?.[words.name];
  const wrong = level !== undefined && wants !== undefined && level !== wants;
  return [held?.open, brought?.closed].flatMap((c) => (c ? [wrong && c === held?.open ? { ...c, drawnWrong: true } : c] : []));
}

const ohms = (check: MeterCheck | undefined): number => check?.expects ?? Number.POSITIVE_INFINITY;

function changes(open: MeterCheck, closed: MeterCheck): boolean {
  const [a, b] = [ohms(open), ohms(closed)];
  if (a === b) return false;
  return Math.max(a, b) > MOVED * Math.min(a, b);
}
