/** Two numbers of four bits, their sum on five LEDs. */
import { counted, type DemoTable } from './table.ts';

export const addingMachine: DemoTable = {
  id: 'adding-machine',
  title: 'Adding machine',
  description:
    'Two numbers from 0 to 15 on eight switches, their sum from 0 to 30 on five LEDs. In gates this takes carries; here it is one look-up.',
  inputs: [...counted('B', 4), ...counted('A', 4)],
  outputs: counted('S', 5),
  rules: 'S4..S0 = A3..A0 plus B3..B0',
};
