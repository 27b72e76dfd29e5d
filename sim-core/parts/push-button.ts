/** Push button, 6 × 6 mm, four legs: the two legs that face each other across the trench are one; pressing joins the pairs. */
import { fourLeg } from '../board/footprints.ts';
import { bounceFigures, buttonContact } from './figures/contacts.ts';
import { definePart, plainPins } from './part.ts';

/** The bent metal between facing legs [S]. */
const BRIDGE = 10;

export const pushButton = definePart({
  id: 'push-button',
  title: 'Push button',
  synonyms: ['button', 'pushbutton', 'tact switch', 'tactile switch', 'momentary switch', 'push to make', 'key'],
  group: 'switch',
  letters: 'SB',
  params: [],
  footprint: () => fourLeg,
  pins: () => plainPins(4),
  figures: [
    ...bounceFigures,
    { name: 'contact, closed', value: buttonContact.on, unit: 'Ω', source: 'from memory' },
    { name: 'contact, open, typical', value: buttonContact.off, unit: 'Ω', source: 'from memory' },
    { name: 'contact, open, least', value: buttonContact.leastOff, unit: 'Ω', source: 'from memory' },
  ],
  leakage: 'SOURCES.md S53, S54: 100 MΩ guaranteed; a clean open contact has 10 GΩ, from memory',
  connect(w) {
    w.conductor('1', '4', BRIDGE);
    w.conductor('2', '3', BRIDGE);
    w.contact('1', '2', 0, buttonContact);
  },
});
