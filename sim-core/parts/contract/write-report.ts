/** The contract of a write: what a memory reports of one, as it was measured on its pins. */
import type { Partly } from '../../units/hex.ts';

/** What the pins make of an address of so many bits. */
export interface PinAddress extends Partly {
  readonly bits: number;
}

/** Times of a write that a data sheet limits from below, beside the width of its pulse. */
export type WriteTime = 'address-setup' | 'address-hold' | 'data-setup' | 'data-hold' | 'output-enable-setup' | 'output-enable-hold';

/** One write as it was measured on the pins. Times in seconds; absent when it could not be measured. */
export interface WriteReport {
  readonly what: 'write';
  readonly part: string;
  readonly time: number;
  readonly outcome: 'stored' | 'uncertain' | 'ignored';
  /** why it was ignored or uncertain, and every limit that was not kept */
  readonly faults: readonly WriteFault[];
  readonly address: PinAddress;
  readonly data: Partly;
  /** below VIL, and below VIH */
  readonly guaranteedLow: number;
  readonly maximumLow: number;
  /** those that could be measured, with their limits; negative: on the wrong side of the edge. A hold is measured once something moves. */
  readonly times: readonly { readonly time: WriteTime; readonly measured: number; readonly limit: number }[];
  /** what its sheet asks of the pulse's width [s] */
  readonly limits?: { readonly least: number; readonly most?: number; readonly source: string };
  /** true: taken as a step of a protection sequence; no byte is stored */
  readonly command?: true;
}

export type WriteFault =
  | {
      readonly fault: 'pulse-short' | 'pulse-long' | WriteTime;
      readonly measured: number;
      readonly limit: number;
      readonly source: string;
    }
  | { readonly fault: 'output-enable-low' | 'output-enable-unknown' | 'busy' | 'address-unknown' | 'data-unknown' | 'never-guaranteed-low' }
  | { readonly fault: 'supply-low' | 'just-powered'; readonly measured: number; readonly limit: number; readonly source: string }
  /** protected: by software; other-page: not the page whose bytes are being loaded; not-erased: a bit would have to go back the way that only erasing goes */
  | { readonly fault: 'protected' | 'other-page' | 'not-erased' }
  /** programming supply below its limit [V]; cycles of this cell above its endurance */
  | { readonly fault: 'no-program-voltage' | 'worn'; readonly measured: number; readonly limit: number; readonly source: string };

export type ChipEvent = WriteReport;
