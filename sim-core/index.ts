/** The whole public face of the simulator. */
export { apply, type Change, invert, join } from './bench/changes.ts';
export { type Layout, layOut, type Leg } from './bench/layout.ts';
export { findNets, type Net, type Nets } from './bench/nets.ts';
export { readBenchText } from './formats/bench-text.ts';
export { done, type Failure, failed, type Outcome } from './outcome.ts';
export { PARTS, partKind } from './parts/catalogue.ts';
export { type PartKind, readParams, type WriteReport } from './parts/part.ts';
export { buildCircuit, type Circuit } from './run/circuit.ts';
export type { Options, Simulation } from './run/face.ts';
export type { Act } from './run/hands.ts';
export { LAMP_STEPS, type Readings } from './run/readings.ts';
export { simulate } from './run/simulation.ts';
export { siFormat } from './units/quantity.ts';
