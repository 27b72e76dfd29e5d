/** The inside of a memory as blocks: pins with their levels, the address and what of it is latched, the cells around it, the byte, and the time that is left. */
import { html, nothing } from 'lit';
import type { Plan } from '../../shared/plan.ts';
import { byteAt, type ChipState, hex, hexByte, partlyHex, partlyHexAddress, siFormat } from '../core.ts';
import type { ChipView, SeenPin } from './chip-view.ts';
import { pinRow } from './pin-row.ts';

/** Cells shown: rows of sixteen above and below the one that is addressed. */
const ROUND = 2;
const ACROSS = 16;
const ADDRESS = /^A\d+$/;
const DATA = /^D\d+$/;

const MODES: Readonly<Record<ChipState['doing'], string>> = {
  'no supply': 'There is no supply: nothing is driven and nothing is taken.',
  working: 'It works.',
  waiting: 'Nobody can tell whether it drives the bus: a level that decides it is between low and high.',
  reading: 'It reads: the byte at the address stands on the data pins.',
  'off the bus': 'It is off the bus: its data pins have let go.',
  storing: 'It stores the byte; until that is done nothing else can be written or read.',
  'ready to write': 'It is ready to write: it keeps the byte that stands there as the strobe rises.',
  programming: 'It is being programmed.',
  erasing: 'It is being erased.',
};

const numbered = (pins: readonly SeenPin[], pattern: RegExp) =>
  pins.filter((p) => pattern.test(p.name)).sort((a, b) => Number(b.name.slice(1)) - Number(a.name.slice(1)));

/** `pick`: a cell has been touched that may be stored anew. */
export function memoryBlocks(
  { pins, state, time, recorded }: ChipView,
  image: Plan['memories'][string] | undefined,
  pick: (address: string) => void,
) {
  const address = numbered(pins, ADDRESS);
  const data = numbered(pins, DATA);
  const control = pins.filter((p) => p.level !== '' && !ADDRESS.test(p.name) && !DATA.test(p.name));
  const { latched } = state;
  const shown = latched?.address ?? state.address;
  const left = state.until === undefined ? undefined : Math.max(0, state.until - time);
  return html`<p class="mode">${latched && state.doing !== 'storing' ? latchSays(latched) : MODES[state.doing]}</p>
    ${pinRow('Control', control)} ${pinRow('Address', address)}
    <div class="blocks">
      ${block('address pins', state.address ? `0x${partlyHexAddress(state.address)}` : '?')}
      ${block('latched address', latched ? `0x${partlyHexAddress(latched.address)}` : 'none', latched !== undefined)}
      ${block('latched byte', latched?.data ? partlyHex(latched.data, 2) : 'none', latched?.data !== undefined)}
      ${block('byte on the bus', state.data && state.doing !== 'off the bus' ? partlyHex(state.data, 2) : 'none')}
      ${block('cycle, time left', left === undefined ? 'none' : siFormat(left, 's'), left !== undefined)}
    </div>
    ${cells(shown, image, address.length, recorded, pick)} ${pinRow('Data', data)}`;
}

const latchSays = (latched: NonNullable<ChipState['latched']>): string =>
  latched.data
    ? `The strobe has risen: the byte ${partlyHex(latched.data, 2)} is latched for address 0x${partlyHexAddress(latched.address)}.`
    : `The strobe has fallen: address 0x${partlyHexAddress(latched.address)} is latched, and the byte is awaited.`;

const block = (name: string, value: string, held = false) =>
  html`<div class="block ${held ? 'held' : ''}"><span class="quiet">${name}</span><output class="figures">${value}</output></div>`;

/** As figures, as wide as the memory's last address. */
export const cellAddress = (address: number, bits: number): string => hex(address, Math.ceil(bits / 4));

function cells(
  at: ChipState['address'],
  image: Plan['memories'][string] | undefined,
  bits: number,
  recorded: boolean,
  pick: (address: string) => void,
) {
  if (!at) return nothing;
  const last = (1 << bits) / ACROSS - 1;
  const middle = Math.floor(at.value / ACROSS);
  const first = Math.max(0, Math.min(last - 2 * ROUND, middle - ROUND));
  const rows = Array.from({ length: Math.min(last + 1, 2 * ROUND + 1) }, (_, i) => first + i);
  return html`<table class="cells figures">
    <caption class="quiet">${recorded ? 'Cells as they are now' : 'Cells'} around ${at.unknown ? 'an address that is not fully known' : `0x${partlyHexAddress(at)}`}</caption>
    <tbody>
      ${rows.map(
        (row) => html`<tr>
          <th scope="row">${cellAddress(row * ACROSS, bits)}</th>
          ${Array.from({ length: ACROSS }, (_, i) => {
            const here = row * ACROSS + i === at.value && !at.unknown;
            return html`<td class=${here ? 'here' : nothing} aria-current=${here ? 'true' : nothing} @click=${() => pick(cellAddress(row * ACROSS + i, bits))}>${hexByte(byteAt(image, row * ACROSS + i))}</td>`;
          })}
        </tr>`,
      )}
    </tbody>
  </table>`;
}
