/** What is said of a wire's current: how much, from where to where, who takes it or gives it. */
import { inAmps, inOhms, inVolts, listed, type Ref, say } from '../sentence/wording.ts';
import type { ReasonSays } from './reason-words.ts';

const point = (name: unknown): Ref => ({ kind: 'point', id: String(name) });

/** What a leg's figures add: the resistance and the voltage that make its current. */
const byOhm = ({ ohms, volts }: Readonly<Record<string, number | string>>): string =>
  ohms === undefined ? '' : `${inVolts(Number(volts))} across ${inOhms(Number(ohms))}`;

export const WIRE_CLAUSES: Readonly<Record<string, ReasonSays>> = {
  'wire-in-one-row': ({ at: [wire = ''] }) => ({ says: say`${wire} carries nothing: both its ends are in one strip.` }),
  'wire-carries': ({ at: [wire = ''], data }) => ({
    says: say`${wire} carries ${inAmps(Math.abs(Number(data.amps)))} from ${point(data.from)} to ${point(data.to)}.`,
  }),
  'wires-share': ({ at, data }) => ({
    says: say`${listed(at)} run in parallel and carry ${inAmps(Math.abs(Number(data.amps)))} together, from the side of ${point(data.from)} to that of ${point(data.to)}. How they share it depends on their resistance, and these wires are ideal. Turn wire resistance on to see it.`,
  }),
  'wires-together': ({ at, data }) => ({
    says: say`${listed(at)} run in parallel, and carry ${inAmps(Math.abs(Number(data.sum)))} together.`,
  }),
  'wire-idle': ({ at }) => ({
    says: say`${listed(at)} ${at.length > 1 ? 'carry' : 'carries'} 0 mA: less than 1 µA, which no bench meter would show.`,
  }),
  'side-idle': ({ at, data }) => ({
    says:
      at.length === 0
        ? say`No leg of any part is connected on the side of ${point(data.end)}.`
        : say`On the side of ${point(data.end)} nothing takes current: ${listed(at)}${Number(data.more) > 0 ? ` and ${Number(data.more)} more` : ''}.`,
  }),
  'leg-takes': ({ at: [pin = ''], data }) => ({ says: say`${pin} takes ${inAmps(Number(data.amps))}.`, figures: byOhm(data) }),
  'leg-gives': ({ at: [pin = ''], data }) => ({ says: say`${pin} gives ${inAmps(Number(data.amps))}.`, figures: byOhm(data) }),
  'legs-rest-with': ({ data }) => ({
    says: say`${Number(data.count) === 1 ? 'One more leg adds' : `${Number(data.count)} more legs add`} ${inAmps(Number(data.amps))}.`,
  }),
  'legs-rest-against': ({ data }) => ({
    says: say`${Number(data.count) === 1 ? 'One more leg' : `${Number(data.count)} more legs`} on that side ${Number(data.count) === 1 ? 'goes' : 'go'} the other way, ${inAmps(Number(data.amps))}.`,
  }),
};
