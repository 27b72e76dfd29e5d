/** `npm run bench`: prints what was measured in this run, each figure beside its reference. Nothing here is asserted. */
import { benchCore } from './core.ts';
import { benchPage } from './page.ts';

console.log(`Lampwright bench, Node ${process.version}, ${process.platform}. Compare ratios, not times.`);
// `npm run bench -- page` measures the page alone
if (process.argv[2] !== 'page') benchCore();
await benchPage();
