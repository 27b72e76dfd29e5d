/** Entry of a check's thread: takes the plan's text, posts the outcome. */
import { parentPort, workerData } from 'node:worker_threads';
import { checkText } from './check/check-plan.ts';

parentPort?.postMessage(checkText(String(workerData)));
