/** Of all settings at which an LED was seen lit, the one nearest to the plan's own is kept, whatever the order in which they are looked at. */
import { expect, test } from 'vitest';
import type { Readings } from '../../sim-core/run/readout/readings.ts';
import { makeLitLog } from '../../sim-core/tolerance/marginal.ts';

const seen = (amps: number, brightness = 'lit') => ({ leds: [{ led: 'LED1', brightness, amps }] }) as unknown as Readings;

test('a setting further away, or as far, takes the place of none; a nearer one does, if the LED is lit there', () => {
  const log = makeLitLog();
  const setting = new Map();
  const amps = () => log.lit.get('LED1')?.amps;
  log.note(setting, 1, seen(0, 'dark'));
  expect(amps()).toBeUndefined();
  log.note(setting, 3, seen(3e-3));
  log.note(setting, 4, seen(4e-3));
  log.note(setting, 3, seen(5e-3));
  expect(amps()).toBe(3e-3);
  log.note(setting, 2, seen(2e-3));
  log.note(setting, 1, seen(1e-3, 'dark'));
  expect(log.lit.get('LED1')).toMatchObject({ away: 2, amps: 2e-3 });
});
