/** DIP switch, one to twelve poles: each pole joins the two pins that face each other. */
import { dip } from '../board/footprints.ts';
import { bounceFigures, dipContact } from './figures/contacts.ts';
import { definePart, plainPins } from './part.ts';

export const dipSwitch = definePart({
  id: 'dip-switch',
  title: 'DIP switch',
  synonyms: ['switch', 'toggle switch', 'slide switch', 'switch bank', 'DIL switch', 'SPST switch'],
  group: 'switch',
  params: [{ name: 'poles', type: 'number', unit: '', fallback: 8, least: 1, most: 12, whole: true }],
  footprint: (p) => dip(2 * Number(p.poles)),
  pins: (p) => plainPins(2 * Number(p.poles)),
  figures: [
    { name: 'contact, closed', value: dipContact.on, unit: 'Ω', source: 'SOURCES.md S53' },
    { name: 'contact, open, typical', value: dipContact.off, unit: 'Ω', source: 'from memory' },
    { name: 'contact, open, least', value: dipContact.leastOff, unit: 'Ω', source: 'SOURCES.md S53, S54' },
    ...bounceFigures,
  ],
  value: (p) => (Number(p.poles) === 1 ? '1 pole' : `${p.poles} poles`),
  leakage: 'SOURCES.md S53, S54: 100 MΩ guaranteed; a clean open contact has 10 GΩ, from memory',
  connect(w, p) {
    const poles = Number(p.poles);
    for (let k = 0; k < poles; k++) w.contact(String(k + 1), String(2 * poles - k), k, dipContact);
  },
});
