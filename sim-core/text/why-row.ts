/** What is said of the row that a memory reads: its address, the input behind each bit, and the first bit that differs from what was asked. */
import { inVolts, listed, say } from '../sentence/wording.ts';
import { seenVolts } from '../units/seen.ts';
import type { Reason } from '../why/answer.ts';
import type { ReasonSays } from './reason-words.ts';
import { levelWord, position } from './why-clauses.ts';

const at = ({ volts }: Reason['data']): string => inVolts(seenVolts(Number(volts)));

export const ROW_CLAUSES: Readonly<Record<string, ReasonSays>> = {
  'row-none': ({ at: [memory = ''] }) => ({ says: say`${memory} reads no row.` }),
  'row-now': ({ at: [memory = ''], data }) => ({
    says:
      data.row === undefined
        ? say`The address pins of ${memory} read ${String(data.address)}.`
        : say`The address pins of ${memory} read ${String(data.address)}, row ${String(data.row)}.`,
  }),
  'row-bit': ({ at: [pin = '', pole = ''], data }) => ({
    says: say`Input ${String(data.input)}: ${pin} is ${levelWord(data.level)} at ${at(data)}, and ${pole} is ${position(data.closed)}.`,
  }),
  'row-others': ({ at: pins, data }) => ({
    says: say`${listed(pins)} ${pins.length > 1 ? 'are' : 'is'} ${levelWord(data.level)}, and no input of the table sets ${pins.length > 1 ? 'them' : 'it'}.`,
  }),
  'row-bit-off': ({ at: [pin = '', pole = ''], data }) => ({
    says: say`${pin} is ${levelWord(data.level)}, although ${pole} is ${position(data.closed)} and means ${levelWord(data.means)}.`,
  }),
  'row-already': ({ data }) => ({ says: say`That is what was asked: ${String(data.asked)}.` }),
  'row-differs': ({ at: [pin = ''], data }) => ({
    says: say`The first bit that differs from ${String(data.asked)} is ${data.input === undefined ? '' : `input ${String(data.input)}, `}${pin}: it is ${levelWord(data.is)} at ${at(data)} and would have to be ${levelWord(data.wants)}.`,
  }),
};
