/** From a supply's figures to a part of the catalogue: a voltage behind a resistance, with a most current, two terminals and a switch. */
import { offBoard } from '../../board/footprints.ts';
import { siFormat } from '../../units/quantity.ts';
import { definePart, type Figure, type PartKind } from '../part.ts';

export interface SupplyFigures {
  /** [V, Ω, A, ± %] */
  readonly volts: number;
  readonly ohms: number;
  readonly amps: number;
  readonly tolerance: number;
  /** where the tolerance is from */
  readonly source: string;
  readonly figures: readonly Figure[];
}

export const supplyPart = (
  about: Pick<PartKind, 'id' | 'title' | 'synonyms'>,
  { volts, ohms, amps, tolerance, source, figures }: SupplyFigures,
): PartKind =>
  definePart({
    ...about,
    group: 'supply',
    params: [
      { name: 'volts', type: 'number', unit: 'V', fallback: volts, least: 0, most: 30 },
      { name: 'ohms', type: 'number', unit: 'Ω', fallback: ohms, least: 0.001, most: 100 },
      { name: 'amps', type: 'number', unit: 'A', fallback: amps, least: 0.001, most: 10 },
      { name: 'tolerance', type: 'number', unit: '%', fallback: tolerance, least: 0, most: 50 },
    ],
    footprint: () => offBoard,
    pins: () => [
      { pin: '+', name: '+', role: 'supply' },
      { pin: '-', name: '−', role: 'ground' },
    ],
    figures,
    spread: { of: 'volts', source },
    value: (p) => siFormat(Number(p.volts), 'V'),
    connect(w, p) {
      w.supply('+', '-', { volts: Number(p.volts), ohms: Number(p.ohms), amps: Number(p.amps) });
    },
  });
