/** A ferry's ramp and barrier: signals and drives with interlocks, all switched on by a low output. */
import type { DemoTable } from './table.ts';

export const ferryRamp: DemoTable = {
  id: 'ferry-ramp',
  title: 'Ferry ramp signals',
  description:
    'The crew turns the key; the ramp goes down only behind a shut barrier and with the ferry moored, and cars get green only over a ramp that is down. Limit switches that contradict each other stop everything.',
  inputs: ['key', 'moored', 'calm', 'down', 'up', 'open', 'shut'],
  outputs: ['green', 'red', 'bell', 'ramp_down', 'ramp_up', 'barrier_open', 'barrier_shut', 'alarm'],
  rules: `fault = (down AND up) OR (open AND shut) OR (down AND NOT moored AND NOT shut)
go = key AND moored AND NOT fault
ramp_down = go AND calm AND shut AND NOT down
ramp_up = NOT key AND NOT fault AND shut AND NOT up
barrier_open = go AND down AND NOT open
barrier_shut = NOT shut AND (NOT key OR fault) AND NOT (open AND shut)
green = go AND down AND open
red = NOT green
bell = ramp_down OR ramp_up OR barrier_shut
alarm = fault`,
  activeLow: ['green', 'red', 'bell', 'ramp_down', 'ramp_up', 'barrier_open', 'barrier_shut', 'alarm'],
};
