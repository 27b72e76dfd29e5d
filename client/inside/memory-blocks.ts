/** The inside of a memory as blocks: pins with their levels, the address and what of it is latched, the cells around it, the byte, and the time that is left. */
import { html, nothing } from 'lit';
import type { Plan } from '../../shared/plan.ts';
import { byteAt, type ChipState, hex, hexByte, partlyHex, partlyHexAddress, siFormat } from '../../sim-core/index.ts';
import type { ChipView, SeenPin } from './chip-view.ts';
import { pinRow } from './pin-row.ts';

/** Cells shown: rows of sixteen above and below the one that is addressed. */
const ROUND = 2;
const ACROSS = 16;
const ADDRESS = /^A\d+$/;
const DATA = /^D\d+$/;

const MODES: Readonly<Record<ChipState['doing'], string>> = {
  'no supply': 'No supply: it drives no pin and reads none.',
  working: 'It works.',
  waiting: 'Undefined (X): an enable is between low and high, so it may or may not drive the bus.',
  reading: 'Reading: it drives the byte at the address onto its data pins.',
  'high-impedance': 'Its data pins are high-impedance (Z).',
  storing: 'Storing the byte. Until that is done it can be neither written nor read.',
  'ready to write': 'Ready to write: it latches the byte on its data pins when the write strobe rises.',
  programming: 'It is being programmed.',
  erasing: 'It is being erased.',
  operated: 'It is operated.',
  released: 'It is released.',
};

const numbered = (pins: readonly SeenPin[], pattern: RegExp) =>
  pins.filter((p) => pattern.test(p.name)).sort((a, b) => Number(b.name.slice(1)) - Number(a.name.slice(1)));

/** `pick`: a cell has been touched that may be stored again. */
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
      ${block('address pins', state.address ? partlyHexAddress(state.address) : '?')}
      ${block('latched address', latched ? partlyHexAddress(latched.address) : 'none', latched !== undefined)}
      ${block('latched byte', latched?.data ? partlyHex(latched.data, 2) : 'none', latched?.data !== undefined)}
      ${block('data pins', state.data && state.doing !== 'high-impedance' ? partlyHex(state.data, 2) : 'none')}
      ${block('cycle, time left', left === undefined ? 'none' : siFormat(left, 's'), left !== undefined)}
    </div>
    ${cells(shown, image, address.length, recorded, pick)} ${pinRow('Data', data)}`;
}

const latchSays = (latched: NonNullable<ChipState['latched']>): string =>
  latched.data
    ? `Write strobe high again: byte ${partlyHex(latched.data, 2)} is latched for address ${partlyHexAddress(latched.address)}.`
    : `Write strobe low: address ${partlyHexAddress(latched.address)} is latched, the byte is not yet.`;

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
    <caption class="quiet">${recorded ? 'Cells now' : 'Cells'} around ${at.unknown ? 'an address with undefined bits (X)' : partlyHexAddress(at)}</caption>
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
