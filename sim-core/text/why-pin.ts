/** What is said of a pin's level: what it is, at how many volts, and between which limits. */
import { inAmps, inVolts, say, voltRange } from '../sentence/wording.ts';
import { seenVolts, UNSEEN_AMPS } from '../units/seen.ts';
import type { Reason } from '../why/answer.ts';
import type { ReasonSays } from './reason-words.ts';
import { levelWord } from './why-clauses.ts';

const DRIVEN: Readonly<Record<string, string>> = { H: 'drives high', L: 'drives low', X: 'is undefined (X)' };

const level = ({ volts }: Reason['data']): string => inVolts(seenVolts(Number(volts)));

export const PIN_CLAUSES: Readonly<Record<string, ReasonSays>> = {
  'pin-reads': ({ at: [pin = ''], data }) => ({
    says:
      data.level === 'X'
        ? say`${pin} reads undefined (X) at ${level(data)}.`
        : say`${pin} reads ${levelWord(data.level)} at ${level(data)}.`,
    figures: `low up to ${inVolts(Number(data.vil))}, high from ${inVolts(Number(data.vih))}`,
  }),
  'pin-drives': ({ at: [pin = ''], data }) => ({
    says: say`${pin} ${DRIVEN[String(data.level)] ?? 'drives'}${data.level === 'X' ? '' : ` at ${level(data)}`}.`,
    figures:
      data.level === 'X' || Math.abs(Number(data.amps)) < UNSEEN_AMPS
        ? ''
        : `${inAmps(Math.abs(Number(data.amps)))} ${Number(data.amps) > 0 ? 'out of' : 'into'} the pin`,
  }),
  'pin-released': ({ at: [pin = ''], data }) => ({
    says: say`${pin} is high-impedance (Z): it drives nothing, and its net is at ${level(data)}.`,
  }),
  'pin-supply': ({ at: [pin = ''], data }) => ({
    says: say`${pin} is at ${level(data)} against the chip’s ground.`,
    figures: `range ${voltRange(Number(data.least), Number(data.most))}`,
  }),
  'pin-ground': ({ at: [pin = ''], data }) => ({ says: say`${pin} is at ${level(data)} against the supply’s −.` }),
  'pin-without-level': ({ at: [pin = ''], data }) => ({
    says: say`${pin} is no logic input or output. It is at ${level(data)} against the chip’s ground.`,
  }),
  'pin-after-undefined': ({ at: [pin = '', output = ''] }) => ({ says: say`${output} reaches ${pin}, and it is undefined (X).` }),
  'logic-never-set': ({ at: [pin = '', chip = ''] }) => ({
    says: say`${pin} shows what ${chip} has stored, and that is undefined (X): so it is from power-on until the chip is cleared or takes a defined level.`,
  }),
};
