/** Bytes in and out of the page Table in every form, what is refused and what is only told, and files judged beside the table, the memory and each other. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { describe } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { eventually, expect, test } from '../support/e2e.ts';
import { benchTitle, openText, supply } from './hands.ts';

const greenhouse = JSON.parse(readFileSync('shared/demos/greenhouse.plan.json', 'utf8')) as Plan;
const rows = greenhouse.wanted!.rows;
const headline = (page: Page) => page.getByRole('tabpanel', { name: 'Table' }).getByRole('heading', { level: 2 });
const fault = (page: Page) => page.locator('.bytes .fault p').first();
const verdict = (page: Page) => page.locator('.verdict');
const readOut = (page: Page) => page.locator('.read-out');

async function openBytes(page: Page, plan = 'greenhouse') {
  await page.goto(`/?plan=${plan}#table`);
  await eventually(headline(page)).toHaveText(/^(?:All|None|\d).* rows/);
  await page.locator('summary', { hasText: 'Bytes' }).click();
}
const give = (page: Page, name: string, content: string | Uint8Array) =>
  page.locator('input[data-for=image]').setInputFiles({ name, mimeType: 'application/octet-stream', buffer: Buffer.from(content) });
async function saved(page: Page, form: string): Promise<Buffer> {
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: `Save as ${form}` }).click()]);
  return readFileSync(await download.path());
}
/** The table's bytes, and FF above them. */
function chip(change: (bytes: Uint8Array) => void = () => {}): Uint8Array {
  const bytes = new Uint8Array(2048).fill(0xff);
  bytes.set(rows);
  change(bytes);
  return bytes;
}

describe('a file of bytes', () => {
  test('goes out in each form and comes back with the same bytes', async ({ page }) => {
    await openBytes(page);
    for (const [form, ending] of [
      ['Intel HEX', 'hex'],
      ['S-record', 's19'],
      ['Binary', 'bin'],
      ['CSV', 'csv'],
    ] as const) {
      const file = await saved(page, form);
      await give(page, `greenhouse.${ending}`, file);
      await eventually(readOut(page)).toContainText(`greenhouse.${ending}`);
      await eventually(verdict(page)).toHaveText('Both images are the same in all 32 rows, don’t-care bits aside.');
    }
  });

  const hexLine = `:20000000${rows.map((b) => b.toString(16).padStart(2, '0')).join('')}`.toUpperCase();
  test('that is damaged, doubled, too large or something else is refused with place and cure, and nothing is stored', async ({ page }) => {
    await openBytes(page);
    for (const [name, content, says] of [
      [
        'sum.hex',
        `${hexLine}00\n:00000001FF\n`,
        /^sum\.hex: line 1: its checksum reads 00, but its bytes make [0-9A-F]{2}\. Get the file from its source again; if the bytes are right, write [0-9A-F]{2}\.$/,
      ],
      [
        'twice.csv',
        'address,byte\n0x00,0x12\n0x01,0x13\n0x00,0x14\n',
        /^twice\.csv: line 4: address 0x000 is given twice: 12 by line 2, 14 by line 4\. Remove one of the lines\.$/,
      ],
      ['figures.csv', 'address,byte\n0x00,3G\n', /^figures\.csv: line 2: "3G" is no byte\. Write a number such as 63 or 0x3F\.$/],
      [
        'large.bin',
        new Uint8Array(4096),
        /^large\.bin: The file has 4096 bytes, and 2048 fit into this memory\. Choose a larger memory, or cut the file\.$/,
      ],
      [
        'hello.txt',
        'hello world\n',
        /^hello\.txt, read as CSV, has no bytes\. Choose another file, or give it the extension of its format\.$/,
      ],
    ] as const) {
      await give(page, name, content);
      await eventually(fault(page)).toHaveText(says);
      await eventually(readOut(page)).toHaveCount(0);
    }
    await eventually(headline(page)).toHaveText('All 32 rows are stored as wanted, and shown as wanted with the supply on.');
  });

  test('that begins elsewhere is read from there', async ({ page }) => {
    await openBytes(page);
    const [csv] = [`address,byte\n${rows.map((b, i) => `0x${(0x8000 + i).toString(16)},${b}`).join('\n')}\n`];
    await give(page, 'high.csv', csv!);
    await eventually(fault(page)).toContainText('line 2: address 0x8000 is past the end of the memory');
    const begins = page.getByLabel('Address in the file at which U1 begins, hexadecimal');
    await begins.fill('8000');
    await begins.press('Enter');
    await eventually(verdict(page)).toHaveText('Both images are the same in all 32 rows, don’t-care bits aside.');
    await eventually(begins).toHaveValue('0x8000');
  });

  test('with gaps says which, and rows that it lacks are not called wrong', async ({ page }) => {
    await openBytes(page);
    await give(page, 'gap.csv', 'address,byte\n0x00,0x80\n0x10,0x13\n');
    await eventually(readOut(page)).toContainText('The file does not give 0x001 to 0x00F, 0x011 to 0x7FF: these 2046 bytes stay FF.');
    await eventually(verdict(page)).toHaveText(
      /^30 rows that are wanted are not in the file\. ?Of the others one differs\. Row 16: [0-9A-F]{2}, should be [0-9A-F]{2} \(D0 vent, D1 fan, D4 blind and D5 grow light\)\.$/,
    );
  });
});

describe('a read-out of the real chip', () => {
  test('is dropped in and judged: a bit, a blank chip, and another program of which nothing is made up', async ({ page }) => {
    await openBytes(page);
    const drop = async (name: string, bytes: Uint8Array) => {
      const transfer = await page.evaluateHandle(
        ([file, list]) => {
          const t = new DataTransfer();
          t.items.add(new File([Uint8Array.from(list)], file));
          return t;
        },
        [name, [...bytes]] as const,
      );
      await page.locator('.drop-here').dispatchEvent('drop', { dataTransfer: transfer });
    };
    await drop(
      'one-bit.bin',
      chip((b) => {
        b[2]! ^= 8;
      }),
    );
    await eventually(verdict(page)).toHaveText(/^1 of 32 rows differs\. Row 2: [0-9A-F]{2}, should be [0-9A-F]{2} \(D3 \w+\)\.$/);
    await drop('blank.bin', new Uint8Array(2048).fill(0xff));
    await eventually(verdict(page)).toHaveText('Every byte is FF, as in an erased memory. 32 of 32 rows differ.');
    await drop(
      'other.bin',
      chip((b) => {
        for (let i = 0; i < 32; i++) b[i] = (i * 73 + 19) & 0xff;
      }),
    );
    await eventually(verdict(page)).toHaveText(/^\d+ of 32 rows differ\. Row 0: /);
  });

  test('is compared with the memory and with the file before it', async ({ page }) => {
    await openBytes(page);
    await give(page, 'monday.bin', chip());
    await eventually(verdict(page)).toContainText('are the same');
    await give(
      page,
      'friday.bin',
      chip((b) => {
        b[2]! ^= 8;
        b[1000] = 0;
      }),
    );
    await eventually(verdict(page)).toHaveText(/^1 of 32 rows differs\. Row 2: [0-9A-F]{2}, should be [0-9A-F]{2} \(D3 \w+\)\.$/);
    await page.getByLabel('Compared with').selectOption({ label: 'monday.bin' });
    await eventually(verdict(page)).toHaveText(
      /^2 of 2048 rows differ\. Row 2: [0-9A-F]{2}, should be [0-9A-F]{2} \(D3 \w+\); address 0x3E8: 00, should be FF \(/,
    );
    await page.getByLabel('Compared with').selectOption({ label: 'what U1 holds now' });
    await eventually(verdict(page)).toContainText('2 of 2048 rows differ.');
  });

  test('is merged where nothing clashes, and where something does, either may count', async ({ page }) => {
    await openBytes(page);
    await give(page, 'more.csv', 'address,byte\n0x00,0x12\n0x100,0x55\n');
    await page.getByRole('button', { name: 'Merge it into U1' }).click();
    await eventually(fault(page)).toContainText('At 0x000 U1 holds 80 and the file gives 12. Say which of the two to keep.');
    await page.getByRole('button', { name: 'Keep what U1 holds' }).click();
    await eventually(fault(page)).toHaveCount(0);
    await eventually(headline(page)).toHaveText('All 32 rows are stored as wanted, and shown as wanted with the supply on.');
    await page.getByRole('button', { name: 'Merge it into U1' }).click();
    await page.getByRole('button', { name: "Take the file's bytes" }).click();
    await eventually(headline(page)).toHaveText('31 of 32 rows are stored as wanted, and shown as wanted with the supply on.');
  });
});

test('addresses that nobody asks for are filled as chosen, and the pins that wire there are named', async ({ page }) => {
  await openBytes(page);
  await eventually(page.locator('.bytes')).toContainText('A5 to A10 are tied low.');
  const elsewhere = page.getByLabel('Unused addresses');
  expect((await saved(page, 'Binary')).subarray(32).every((b) => b === 0xff)).toBe(true);
  await elsewhere.selectOption({ label: '00' });
  expect((await saved(page, 'Binary')).subarray(32).every((b) => b === 0)).toBe(true);
  expect((await saved(page, 'Intel HEX')).toString().split('\n').length).toBeGreaterThan(2048 / 16);
  await elsewhere.selectOption({ label: 'repeat the table' });
  const again = await saved(page, 'Binary');
  for (let at = 0; at < 2048; at += 32) expect([...again.subarray(at, at + 32)]).toEqual(rows);
  // a tie that is loose does no harm then
  await page.getByRole('button', { name: 'Store in U1' }).click();
  await page.getByLabel('Bytes', { exact: true }).selectOption({ label: 'what U1 holds now' });
  expect(await saved(page, 'Binary')).toEqual(again);
});

test('a static RAM that loses its supply is told to hold nothing of the table any more', async ({ page }) => {
  const parts = greenhouse.parts.map((p) => (p.id === 'U1' ? { ...p, kind: 'static-ram-2kx8' } : p));
  const plan: Plan = { ...greenhouse, title: 'Forgetful watch', parts };
  const held = { '000': rows.map((b) => b.toString(16).padStart(2, '0').toUpperCase()).join('') };
  await page.goto('/#table');
  await openText(page, 'ram.plan.json', JSON.stringify({ ...plan, memories: { U1: held }, switches: { ...plan.switches, PS1: [true] } }));
  await eventually(benchTitle(page)).toHaveText('Forgetful watch');
  await eventually(supply(page)).toHaveAttribute('aria-checked', 'true');
  await eventually(headline(page)).toHaveText(/^All 32 rows are stored/);
  await supply(page).click();
  await eventually(headline(page)).not.toHaveText(/^All 32 rows are stored/);
  // without its supply nothing can be put into it, and with it everything can
  const put = page.getByRole('button', { name: 'Store it in U1' });
  await put.click();
  await eventually(page.getByRole('alert').filter({ hasText: 'U1' })).toHaveText(
    /^\s*U1 is volatile and has no supply now, so its bytes would be lost\. Switch the supply on, then store them\./,
  );
  await eventually(headline(page)).not.toHaveText(/^All 32 rows are stored/);
  await supply(page).click();
  // what may be stored is judged by the readings that the page has
  await eventually(page.locator('.supply-volts')).not.toHaveText('0.00 V');
  await put.click();
  await eventually(headline(page)).toHaveText('All 32 rows are stored and shown as wanted.');
});
