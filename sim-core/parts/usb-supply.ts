/** USB supply: 5 V of a port, behind the resistance of its cable, with the port's current limit. */
import { supplyPart } from './supply/supply-part.ts';

export const usbSupply = supplyPart(
  {
    id: 'usb-supply',
    title: 'USB supply',
    synonyms: ['USB port', 'USB cable', 'phone charger', 'mains adaptor', 'mains adapter', 'wall wart', '5V'],
  },
  {
    volts: 5,
    ohms: 0.4,
    amps: 0.5,
    tolerance: 5,
    source: 'from memory: 4.75 to 5.25 V at a port that gives 500 mA',
    figures: [
      { name: 'usual voltage', value: 5, unit: 'V', source: 'from memory' },
      {
        name: 'resistance of the cable',
        value: 0.4,
        unit: 'Ω',
        source: 'derived: 1 m there and 1 m back of copper AWG 28, 213 mΩ/m (from memory)',
      },
      { name: 'most current', value: 0.5, unit: 'A', source: 'from memory: five unit loads of 100 mA' },
    ],
  },
);
