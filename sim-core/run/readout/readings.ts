/** What can be seen and measured on the bench at one moment; the only thing the screen, the findings and the explanations read. */
import type { ChipState, Level } from '../../parts/part.ts';
import type { SupplyDroop } from './supply-droop.ts';

/** A net's voltage [V] and level. */
export interface NetReading {
  /** against the first supply's minus terminal [V] */
  readonly volts: number;
  /**
   * 'driven': an output, a switch or the supply decides it; 'weak': only a resistor does; 'floating': nothing does;
   * 'contention': an output cannot reach its level against something else; 'unknown': an output whose value is undefined
   */
  readonly drive: 'driven' | 'weak' | 'floating' | 'contention' | 'unknown';
  /** small-signal resistance to everything that has a fixed potential [Ω] */
  readonly ohms: number;
}

/** Perceived state of an LED, by its current; see LED_STEPS. */
export const BRIGHTNESSES = ['dark', 'dim', 'lit', 'overdriven', 'unknown'] as const;
/** How an LED looks, from dark to too bright. */
export type Brightness = (typeof BRIGHTNESSES)[number];
/** Does it look lit, be it too bright? */
export const isLit = (brightness: Brightness): boolean => brightness === 'lit' || brightness === 'overdriven';

/** An LED's current [A], voltage [V] and look. */
export interface LedReading {
  /** 'D3', or 'DS1.a' for a segment */
  readonly led: string;
  readonly part: string;
  readonly amps: number;
  /** anode against cathode [V] */
  readonly volts: number;
  readonly brightness: Brightness;
}

export interface PinReading {
  readonly pin: string;
  readonly volts: number;
  /** null for pins that have no logic level; Z for one that is high-impedance */
  readonly level: Level | 'Z' | null;
  /** current out of the chip's output stage, + sources, − sinks [A]; 0 for inputs */
  readonly amps: number;
}

/** What a chip is doing, and the level at each of its pins. */
export interface ChipReading {
  readonly part: string;
  readonly state: ChipState;
  /** supply pin against ground pin [V] */
  readonly supply: number;
  /** how far that dipped since the last act began; only where wires and rails have resistance */
  readonly dip?: SupplyDroop;
  readonly pins: readonly PinReading[];
}

/** A supply's voltage [V], current [A], and whether it is at its current limit. */
export interface SupplyReading {
  readonly part: string;
  readonly on: boolean;
  readonly volts: number;
  readonly amps: number;
  readonly limiting: boolean;
}

/** The current through a winding, and of a motor how fast it turns. */
export interface CoilReading {
  readonly part: string;
  /** from its first leg to its second [A] */
  readonly amps: number;
  /** revolutions a minute */
  readonly rpm?: number;
}

/** What a logic probe shows. */
export interface ProbeReading {
  readonly level: Level | 'Z';
  /** times that the level went and came back since a hand last did something */
  readonly pulses: number;
}

/** Chips that move themselves or each other in a loop, which swings and never rests. */
export interface Oscillation {
  readonly chips: readonly string[];
  /** mean of the last ones [s] */
  readonly period: number;
  /** parts that set it; none: it is the delays of the chips that do */
  readonly resistors: readonly string[];
  readonly capacitors: readonly string[];
  /** what oscillators are made of, so it is no mistake: a capacitor in the loop, or gates alone */
  readonly meant: boolean;
}

/** All that can be seen and measured at one moment: V, A, levels and what each chip is doing. */
export interface Readings {
  /** simulated time [s] */
  readonly time: number;
  /** aligned with Nets.all */
  readonly nets: readonly NetReading[];
  readonly leds: readonly LedReading[];
  readonly chips: readonly ChipReading[];
  readonly supplies: readonly SupplyReading[];
  readonly coils: readonly CoilReading[];
  /** positions of every switch and button: pole → closed */
  readonly switches: Readonly<Record<string, readonly boolean[]>>;
  /** meters of the plan: volts or amps by meter id */
  readonly meters: Readonly<Record<string, number>>;
  /** logic probes of the plan, by meter id */
  readonly probes: Readonly<Record<string, ProbeReading>>;
  /** by node [V]; only where wires and rails have resistance, so that a net has more voltages than one, or parts have nodes inside */
  readonly nodes?: readonly number[];
  /** the bench was waited for and did not come to rest: the loops that keep it moving */
  readonly restless?: readonly Oscillation[];
  /** set when the solver could not find an operating point: what it was worst at */
  readonly unsolved?: { readonly net: number };
}

/**
 * Steps of perceived brightness [A]: below `dim` it looks dark, from `lit` on it looks lit.
 * Practitioners' remarks (SOURCES.md S42 to S45: a cheap red LED is just visible at 0.5 mA, a bright one at 0.2 mA); our choice between them.
 */
export const LED_STEPS = { dim: 0.1e-3, lit: 1e-3 } as const;

/** The level of a net in the letters of IEEE 1164: strong 0 1 X, weak L H W, and Z for what floats. Thresholds in V. */
export function netLevel(net: NetReading, vil: number, vih: number): '0' | '1' | 'X' | 'L' | 'H' | 'W' | 'Z' {
  if (net.drive === 'floating') return 'Z';
  if (net.drive === 'contention' || net.drive === 'unknown') return 'X';
  const strong = net.drive === 'driven';
  if (net.volts <= vil) return strong ? '0' : 'L';
  if (net.volts >= vih) return strong ? '1' : 'H';
  return strong ? 'X' : 'W';
}
