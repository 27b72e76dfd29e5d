/** What is said of a memory's last write: what came of it, how wide its pulse was, each time with its limit; or why none has come. */
import { inSeconds, inVolts, listed, say } from '../sentence/wording.ts';
import type { Reason } from '../why/answer.ts';
import type { ReasonSays } from './reason-words.ts';
import { levelWord } from './why-clauses.ts';

const TIMES: Readonly<Record<string, string>> = {
  'address-setup': 'Address set-up',
  'address-hold': 'Address hold',
  'data-setup': 'Data set-up',
  'data-hold': 'Data hold',
  'output-enable-setup': '/OE set-up',
  'output-enable-hold': '/OE hold',
};

/** "pulse 482 ns guaranteed, 510 ns maximum; at least 100 ns" */
function width({ data }: Reason): string {
  const limits = [
    ...(data.least === undefined ? [] : [`at least ${inSeconds(Number(data.least))}`]),
    ...(data.most === undefined ? [] : [`at most ${inSeconds(Number(data.most))}`]),
  ];
  const pulse = `pulse ${inSeconds(Number(data.guaranteed))} guaranteed, ${inSeconds(Number(data.maximum))} maximum`;
  return limits.length > 0 ? `${pulse}; ${limits.join(', ')}` : pulse;
}

const came =
  (what: string): ReasonSays =>
  (reason) => ({
    says: say`The last write to ${reason.at[0] ?? ''}, byte ${String(reason.data.byte)} at address ${String(reason.data.address)} at ${inSeconds(Number(reason.data.time))}, ${what}.`,
    figures: width(reason),
  });

export const WRITE_CLAUSES: Readonly<Record<string, ReasonSays>> = {
  'write-stored': came('was stored'),
  'write-uncertain': came('has left the byte undefined (X)'),
  'write-ignored': came('was ignored'),
  'write-command': came('was taken as a step of the protection sequence'),
  'write-since': ({ data }) => ({ says: say`The write before it had begun ${inSeconds(Number(data.seconds))} earlier.` }),
  'write-time': ({ data }) => ({
    says: say`${TIMES[String(data.time)] ?? String(data.time)}: ${inSeconds(Number(data.measured))}.`,
    figures: `at least ${inSeconds(Number(data.limit))}`,
  }),
  'write-kept': ({ at: [memory = ''], data }) => ({
    says: say`${memory} still holds ${String(data.holds)} at address ${String(data.address)}.`,
  }),
  'write-gone': ({ at: [memory = ''], data }) => ({
    says: say`${memory} now holds ${String(data.holds)} at address ${String(data.address)}: something other than a write has changed it since.`,
  }),
  'write-elsewhere': ({ at: [memory = ''], data }) => ({
    says: say`The address pins of ${memory} now read ${String(data.now)}, not ${String(data.address)}: set the switches back to see the byte.`,
  }),
  'write-none': ({ at: [memory = ''] }) => ({ says: say`No write has come to ${memory} since this bench was started.` }),
  'write-no-strobe': ({ at: [memory = ''] }) => ({ says: say`${memory} has no /WE: a pulse on /WE does not write it.` }),
  'no-button': ({ at: [pin = ''] }) => ({ says: say`No button stands on this bench that could pull ${pin} low.` }),
  'write-not-selected': ({ at: [pin = '', memory = ''], data }) => ({
    says: say`${pin} is ${levelWord(data.level)}, and ${memory} takes a write only while it is ${levelWord(data.needs)}.`,
  }),
  'press-writes': ({ at: [button = '', memory = ''] }) => ({
    says: say`A press of ${button} does bring a write to ${memory}, tried on a copy of this bench at rest, and so does the next. Press it.`,
  }),
  'press-writes-once': ({ at: [button = '', memory = ''] }) => ({
    says: say`Of two presses of ${button}, tried on a copy of this bench at rest, only one brings a write to ${memory}.`,
  }),
  'press-no-write': ({ at: [memory = '', ...buttons] }) => ({
    says: say`A press of ${listed(buttons)} brings no write to ${memory}, tried twice on a copy of this bench at rest.`,
  }),
  'button-one-net': ({ at: [button = '', a = '', b = ''] }) => ({
    says: say`Both sides of ${button} are one net: ${a} and ${b} are connected while it is open, so a press changes nothing. Rotate the button or move its wire.`,
  }),
  'never-discharged': ({ at: [capacitor = '', leg = ''], data }) => ({
    says: say`Nothing discharges ${capacitor} while the button is open: no resistor connects ${leg} to anything. Add a discharge resistor across it.`,
    figures: `${inVolts(Number(data.volts))} across it now`,
  }),
};
