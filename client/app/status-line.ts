/** What is said over the bench: what the hand holds, where the LEDs are, how slowly time passes, what is under the pointer, and what could not be done. */
import { html, nothing } from 'lit';
import { type Failure, grouped, partKind, type Readings, siFormat } from '../../sim-core/index.ts';
import type { Builder } from '../edit/builder.ts';
import { driveText, isOff } from '../panel/lists/drive-text.ts';
import type { Under } from '../scene/hit-text.ts';
import type { Session } from '../state/session.ts';

/** What is being placed while Parts is closed. */
export function placingText(builder: Builder, partsOpen: boolean) {
  const { toPlace, wireFrom, laying } = builder;
  const title = toPlace
    ? partKind(toPlace.kind)?.title
    : wireFrom !== undefined
      ? `a wire from ${wireFrom}`
      : laying
        ? 'a wire'
        : undefined;
  if (title === undefined || (toPlace && partsOpen)) return nothing;
  return html`<p class="in-hand">Placing ${title}. ${toPlace ? 'Click a hole.' : wireFrom === undefined ? 'Click its first hole.' : 'Click its other hole.'}
      <button type="button" class="plain" @click=${() => builder.cancel()}>Cancel</button></p>`;
}

/** The way to LEDs that are out of sight. count: how many there are. */
export function toLeds(away: 'left' | 'right', count: number, show: () => void) {
  const leds = count === 1 ? 'The LED' : `${count} LEDs`;
  return html`<button type="button" class="to-leds" title="Show the LEDs" @click=${show}>
      ${away === 'left' ? `← ${leds}` : `${leds} →`}
    </button>`;
}

/** "Time passes 4000 times slower here …", in one figure; nothing while it passes as it should. pace: simulated seconds a second. */
export function paceNote(pace: number) {
  if (pace >= 1) return nothing;
  const times = Number((1 / pace).toPrecision(1));
  return html`<p class="pace">Running ${times < 2 ? 'a little' : `${grouped(times)} times`} slower than real time: this bench needs more computing than this machine can do.</p>`;
}

/** What takes longer than a second, with a way to stop it; and that a bench is not simulated any more. */
export function statusNote(session: Session) {
  if (session.status === 'live') return nothing;
  const [says, acts, act] =
    session.status === 'computing'
      ? ['Still computing', 'Stop', () => session.stop()]
      : ['Not simulated', 'Try again', () => session.tryAgain()];
  return html`<div class="simulating"><p>${says}</p><button type="button" class="act" @click=${act}>${acts}</button></div>`;
}

/** That the bench may be operated, not edited, and the way to one that may. */
export function readOnlyNote(session: Session, copy: () => void) {
  if (!session.readOnly) return nothing;
  return html`<div class="read-only-note" role="status"><p>This bench is read-only: switches and buttons work, parts and wires stay.</p><button type="button" class="plain" @click=${copy}>Make a copy</button></div>`;
}

/** That the browser does not keep the bench: nothing closes it but a browser that does. */
export function storageWarning(failure: Failure | undefined, save: () => void) {
  if (!failure) return nothing;
  return html`<div class="unkept" role="alert"><p>${failure.says}</p><button type="button" class="plain" @click=${save}>Save as a file</button></div>`;
}

/** What could not be done, until it has been read. */
export function refusalNote(failure: Failure | undefined, close: () => void) {
  if (!failure) return nothing;
  return html`<div class="refusal" role="alert"><p>${failure.says}</p><button type="button" class="plain" @click=${close}>Close</button></div>`;
}

/** Less than this is none [V]. */
const NO_VOLTS = 5e-4;

/** "a12: 4.98 V, driven"; empty where the pointer is on nothing. */
export function sayUnder(under: Under | undefined, readings: Readings | undefined): string {
  if (!under) return '';
  const now = under.nets.map((n) => readings?.nets[n]);
  const seen = now.flatMap((net) => net ?? []);
  if (readings && seen.length > 0 && isOff(readings) && seen.every((net) => Math.abs(net.volts) < NO_VOLTS))
    return `${under.name}: 0 V, the supply is off`;
  const volts = now.flatMap((net, i) => {
    if (!net || !readings) return [];
    const side = under.sides?.[i];
    return `${side ? `${side} at ` : ''}${siFormat(Math.abs(net.volts) < NO_VOLTS ? 0 : net.volts, 'V')}, ${driveText(net, readings)}`;
  });
  const says = volts.length > 0 ? volts.join('; ') : under.strips.length > 0 ? 'not connected' : '';
  return `${under.name}${says ? `: ${says}` : ''}`;
}
