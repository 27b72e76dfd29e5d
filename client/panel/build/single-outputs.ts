/** What every LED has, and what single outputs have instead, each with the resistor that follows. */
import { html, nothing } from 'lit';
import { CHOICE_SAYS, type Choices, limitsOf, siFormat } from '../../../sim-core/index.ts';

export const MILLIAMPS = [2, 5, 8, 10, 15];
const SINGLE = ['red', 'amber', 'green', 'blue', 'white'] as const;
export const COLOURS = ['alternating', ...SINGLE] as const;

/** What is chosen for all outputs. */
export interface LedChoices extends Pick<Choices, 'show' | 'buffered'> {
  readonly milliamps: number;
  readonly colour: (typeof COLOURS)[number];
}

/** by output */
type Own = NonNullable<Choices['own']>;

interface SingleOutputs {
  readonly outputs: readonly string[];
  /** kind of memory; absent: none can be chosen, and no resistor is known */
  readonly memory: string | undefined;
  readonly chosen: LedChoices;
  readonly own: Own;
  /** outputs that are active low */
  readonly low: ReadonlySet<string>;
  give(own: Own): void;
  turn(low: ReadonlySet<string>): void;
}

export const coloured = (show: Choices['show']): boolean => show === 'leds' || show === 'loads';
const amps = (milliamps: number | undefined): number | undefined => (milliamps === undefined ? undefined : milliamps / 1000);

export function singleOutputs({ outputs, memory, chosen, own, low, give, turn }: SingleOutputs) {
  const { show, buffered, milliamps, colour } = chosen;
  const loads = show === 'loads';
  const limits =
    memory === undefined
      ? undefined
      : limitsOf({
          memory,
          show,
          buffered,
          amps: milliamps / 1000,
          outputs: outputs.map((name) => ({
            name,
            ...(colour === 'alternating' ? {} : { colour }),
            ...own[name],
            ...(low.has(name) && !loads ? { activeLow: true } : {}),
          })),
        });
  /** undefined: as all */
  const set = (name: string, some: { readonly colour?: (typeof SINGLE)[number] | undefined; readonly amps?: number | undefined }) => {
    const { colour: its, amps: current } = { ...own[name], ...some };
    give({ ...own, [name]: { ...(its === undefined ? {} : { colour: its }), ...(current === undefined ? {} : { amps: current }) } });
  };
  const chosenIn = (e: Event) => (e.target as HTMLSelectElement).selectedIndex - 1;
  return html`<fieldset class="choice singly"><legend>Each output</legend>
    <small>${coloured(show) ? 'Colour, current' : 'Current'} and the resistor that follows. “As all”: what is chosen above.</small>
    <ul>${outputs.map((name, i) => {
      const its = own[name] ?? {};
      const limit = limits?.[i];
      return html`<li><span class="output-name">${name}</span>
        ${
          coloured(show)
            ? html`<select aria-label="Colour of ${name}" @change=${(e: Event) => set(name, { colour: SINGLE[chosenIn(e)] })}>
          <option ?selected=${its.colour === undefined}>as all</option>
          ${SINGLE.map((c) => html`<option ?selected=${c === its.colour}>${c}</option>`)}</select>`
            : nothing
        }
        <select aria-label="Current of ${name}" @change=${(e: Event) => set(name, { amps: amps(MILLIAMPS[chosenIn(e)]) })}>
          <option ?selected=${its.amps === undefined}>as all</option>
          ${MILLIAMPS.map((m) => html`<option ?selected=${amps(m) === its.amps}>${m} mA</option>`)}</select>
        <output>${limit ? `${siFormat(limit.ohms, 'Ω')}, ${siFormat(limit.amps, 'A')}` : ''}</output>
        ${
          loads
            ? nothing
            : html`<label><input type="checkbox" .checked=${low.has(name)} @change=${() => {
                const next = new Set(low);
                if (!next.delete(name)) next.add(name);
                turn(next);
              }} /> active low</label>`
        }</li>`;
    })}</ul>
    <small>${loads ? '' : `Active low: ${CHOICE_SAYS.activeLow} `}The resistor is the next one of E12, so up to a fifth less may flow. A current that LED or chip cannot bear is refused.</small>
  </fieldset>`;
}
