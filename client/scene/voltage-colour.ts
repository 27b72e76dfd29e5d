/** The voltage ramp: violet at 0 V through rose to amber at the supply. One colour for one voltage, everywhere on the page. */

type Rgb = readonly [number, number, number];
const VIOLET: Rgb = [64, 42, 120];
const ROSE: Rgb = [176, 70, 98];
const AMBER: Rgb = [233, 163, 35];
/** Violet is near the slate's own darkness; there it starts lighter. */
const VIOLET_ON_SLATE: Rgb = [122, 98, 196];

const mix = (a: Rgb, b: Rgb, t: number): string => `rgb(${a.map((v, i) => Math.round(v + ((b[i] ?? v) - v) * t)).join(' ')})`;

/** 256 colours made once; a reading picks one by index, so that an unchanged colour is known without comparing strings. */
const table = (low: Rgb): readonly string[] =>
  Array.from({ length: 256 }, (_, i) => (i < 128 ? mix(low, ROSE, i / 128) : mix(ROSE, AMBER, (i - 128) / 127)));
const TABLES = { light: table(VIOLET), dark: table(VIOLET_ON_SLATE) };

/** Place on the ramp, 0 to 255; outside the supply's range it stays at the end. */
export const voltageStep = (volts: number, supply: number): number =>
  Math.max(0, Math.min(255, Math.round((255 * volts) / (supply > 0 ? supply : 5))));

export const voltageColour = (index: number, dark: boolean): string => (dark ? TABLES.dark : TABLES.light)[index] ?? 'currentColor';

/** Letters on a ramp colour: white on the violet half, ink on the amber one, for contrast. */
export const letterOn = (index: number, dark: boolean): string => (index > (dark ? 110 : 165) ? '#1d1b22' : '#ffffff');
