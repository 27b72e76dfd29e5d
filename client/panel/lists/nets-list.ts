/** The list of nets: what is connected, its voltage and level now, and what drives it. */
import { html } from 'lit';
import { type Readings, siFormat } from '../../../sim-core/index.ts';
import type { BenchModel } from '../../state/bench-model.ts';
import type { Session } from '../../state/session.ts';
import { driveText } from './drive-text.ts';
import { rowEvents } from './rows.ts';

/** Members beyond so many are counted. */
const NAMED = 12;

export function netsList({ readings }: Session, model: BenchModel) {
  const levels = readings && levelsOf(model, readings);
  return html`<table class="list nets">
    <caption class="visually-hidden">Nets</caption>
    <thead><tr><th scope="col">members</th><th scope="col">volts</th><th scope="col">level</th><th scope="col">drive</th></tr></thead>
    <tbody>
      ${model.nets.all.map((net) => {
        const now = readings?.nets[net.index];
        return html`<tr data-nets=${net.index} ${rowEvents(undefined, [net.index])}>
          <th scope="row" tabindex="0">${members(net, model)}</th>
          <td class="figures">${now ? siFormat(Math.abs(now.volts) < 1e-4 ? 0 : now.volts, 'V') : ''}</td>
          <td class="figures">${levels?.get(net.index) ?? ''}</td>
          <td>${now && readings ? driveText(now, readings) : ''}</td>
        </tr>`;
      })}
    </tbody>
  </table>`;
}

function members({ legs, ends }: BenchModel['nets']['all'][number], { specimen }: BenchModel): string {
  const names = legs.map((l) => {
    const s = specimen.get(l.part.id);
    const pin = s?.legs.find((x) => x.pin.pin === l.pin)?.pin.name ?? l.pin;
    return s?.isChip || s?.supply ? `${l.part.id} ${pin}` : `${l.part.id}.${l.pin}`;
  });
  const wires = new Set(ends.map((e) => e.wire.id));
  const more = names.length - NAMED;
  return [
    ...names.slice(0, NAMED),
    ...(more > 0 ? [`${more} more`] : []),
    ...(names.length === 0 ? [...wires] : wires.size > 0 ? [`${wires.size} ${wires.size === 1 ? 'wire' : 'wires'}`] : []),
  ].join(', ');
}

/** As the chips on a net see it; where they see it differently, all levels. */
function levelsOf({ netOfLeg }: BenchModel, { chips }: Readings): ReadonlyMap<number, string> {
  const levels = new Map<number, Set<string>>();
  for (const { part, pins } of chips)
    for (const { pin, level } of pins) {
      const net = netOfLeg.get(`${part}.${pin}`);
      if (net === undefined || level === null) continue;
      levels.set(net, (levels.get(net) ?? new Set()).add(level));
    }
  // a high-impedance output says nothing where something else does
  return new Map([...levels].map(([net, seen]) => [net, [...seen].filter((l) => l !== 'Z' || seen.size === 1).join('/')]));
}
