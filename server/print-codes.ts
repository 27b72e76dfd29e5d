/** `npm run codes`: writes the page of all codes into shared/codes.md of the folder that it is run in. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { codesPage } from './codes-page.ts';

writeFileSync(join(process.cwd(), 'shared/codes.md'), codesPage(process.cwd()));
console.log('wrote shared/codes.md');
