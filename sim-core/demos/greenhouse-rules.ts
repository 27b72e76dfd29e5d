/** The greenhouse watch: what its five sensors and eight LEDs are called, and the rules between them, each once in words and once as code. */

/** What the switches say, in order of the address pins A0 to A4. */
export const SENSORS = ['hot', 'damp', 'dark', 'windy', 'raining'] as const;
export type Sensor = (typeof SENSORS)[number];
type SensorStates = Readonly<Record<Sensor, boolean>>;

export interface GreenhouseRule {
  readonly led: string;
  readonly colour: 'red' | 'amber' | 'green' | 'blue' | 'white';
  readonly says: string;
  readonly holds: (w: SensorStates) => boolean;
}

const BUSY: readonly GreenhouseRule[] = [
  {
    led: 'vent',
    colour: 'green',
    says: 'The vent opens when it is hot or damp, unless it is windy or raining.',
    holds: (w) => (w.hot || w.damp) && !w.windy && !w.raining,
  },
  {
    led: 'fan',
    colour: 'green',
    says: 'The fan runs when it is hot or damp and wind or rain keeps the vent shut.',
    holds: (w) => (w.hot || w.damp) && (w.windy || w.raining),
  },
  {
    led: 'mister',
    colour: 'blue',
    says: 'The mister sprays when it is hot and not damp, but never in the dark.',
    holds: (w) => w.hot && !w.damp && !w.dark,
  },
  {
    led: 'heater',
    colour: 'amber',
    says: 'The heater runs when it is dark and not hot.',
    holds: (w) => w.dark && !w.hot,
  },
  {
    led: 'blind',
    colour: 'amber',
    says: 'The blind is let down when it is hot in daylight, unless it is windy.',
    holds: (w) => w.hot && !w.dark && !w.windy,
  },
  {
    led: 'grow light',
    colour: 'white',
    says: 'The grow light burns when it is dark or raining, unless it is hot.',
    holds: (w) => (w.dark || w.raining) && !w.hot,
  },
  {
    led: 'alarm',
    colour: 'red',
    says: 'The alarm calls when it is windy and raining at once, or hot in the dark.',
    holds: (w) => (w.windy && w.raining) || (w.hot && w.dark),
  },
];

/** In order of the data pins D0 to D7. */
export const GREENHOUSE_RULES: readonly GreenhouseRule[] = [
  ...BUSY,
  {
    led: 'all well',
    colour: 'green',
    says: 'All well shows when none of the other seven LEDs does.',
    holds: (w) => !BUSY.some((r) => r.holds(w)),
  },
];

/** Row r of the table: bit i of r is sensor i. */
const sensorsOfRow = (row: number): SensorStates => {
  const says = (s: Sensor) => ((row >> SENSORS.indexOf(s)) & 1) === 1;
  return { hot: says('hot'), damp: says('damp'), dark: says('dark'), windy: says('windy'), raining: says('raining') };
};

/** One byte a row, in order of the row's number; bit i is LED i. */
export const TABLE: readonly number[] = Array.from({ length: 2 ** SENSORS.length }, (_, row) => {
  const sensors = sensorsOfRow(row);
  return GREENHOUSE_RULES.reduce((byte, rule, bit) => byte | (Number(rule.holds(sensors)) << bit), 0);
});

/** How the sensor switches stand for this weather, one truth value a pole. */
export const switchesFor = (...on: readonly Sensor[]): boolean[] => SENSORS.map((s) => on.includes(s));
