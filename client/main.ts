/** Where the page begins: its look, its shell, and the service worker that keeps it for the next visit. */
import './look/type.css';
import './look/tokens.css';
import './look/page.css';
import './notebook/notebook.css';
import './notebook/pages.css';
import './findings/findings.css';
import './lists/lists.css';
import './table/table.css';
import './plans/plans.css';
import './build/build.css';
import './meter/meter.css';
import './strip/strip.css';
import './closeup/closeup.css';
import './scene/scene.css';
import './edit/edit.css';
import './scene/faces/faces.css';
import './commands/commands.css';
import './look/print.css';
import './sheet/sheet.css';
import './app.ts';
import { wearTheme } from './look/theme.ts';

wearTheme();
if (import.meta.env.PROD && 'serviceWorker' in navigator) void navigator.serviceWorker.register('/sw.js');
