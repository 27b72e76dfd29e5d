/** What is asked of a bench in one go: settings of its switches, LEDs and holes to look at, and room for what is seen. */

/** One pole of a switch, or a supply's own switch (pole 0). */
export interface SwitchPole {
  readonly part: string;
  readonly pole: number;
}

/** Settings of some poles, 32 of them at most; all others stand as the plan says. */
export interface SwitchRows {
  readonly poles: readonly SwitchPole[];
  /** by row: bit i is 1 where pole i is closed */
  readonly rows: Uint32Array;
}

/** What is looked at in each row: LEDs by name ('LED3', 'DS1.a'), and tie points or terminals ('B1:a14', 'PS1.+'). */
export interface ProbePoints {
  readonly leds: readonly string[];
  readonly holes: readonly string[];
}

/** What was seen, row after row. */
export interface BenchSignature {
  /** places in BRIGHTNESSES; `NO_LED` where the bench has no such LED */
  readonly leds: Uint8Array;
  /** against the first supply's minus terminal [V]; NaN where the point touches nothing, and in a row that does not come to rest */
  readonly volts: Float64Array;
}

/** What stands for an LED that is not on the bench. */
export const NO_LED = 255;
/** Room for what `signature` writes. */
export const blankSignature = ({ rows }: SwitchRows, { leds, holes }: ProbePoints): BenchSignature => ({
  leds: new Uint8Array(rows.length * leds.length),
  volts: new Float64Array(rows.length * holes.length),
});
