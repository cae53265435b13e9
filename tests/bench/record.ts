/** `npm run bench:record`: the record's figures as JSON. Parts can be named: append open verify alterations. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadLoft } from '../../src/loft/load-loft';
import { benchAppend } from './append';
import { benchOpen } from './open';
import { benchAlterations, benchVerify } from './verify';

const FACTS = 1_000_000;
const ALTERATIONS = 10_000;

const paths = readdirSync('demo-data', { recursive: true, encoding: 'utf8' }).filter((path) => path.endsWith('.yaml'));
const files = paths.map((path) => ({ path, text: readFileSync(join('demo-data', path), 'utf8') }));
const { loft } = loadLoft(files);
if (loft === null) throw new Error('the demo loft is not in order');

const PARTS = {
  /** Milliseconds. */
  append: () => benchAppend(),
  /** Milliseconds. */
  open: () => benchOpen(),
  verify: () => benchVerify(loft, FACTS),
  alterations: () => benchAlterations(loft, ALTERATIONS),
};

const asked = process.argv.slice(2);
const figures: Record<string, unknown> = {};
for (const [name, measure] of Object.entries(PARTS)) {
  if (asked.length === 0 || asked.includes(name)) figures[name] = await measure();
}
console.log(JSON.stringify(figures, null, 2));
