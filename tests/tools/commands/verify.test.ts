import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { makeExportText } from '../../../src/record/chain/export-file';
import { runVerify } from '../../../src/tools/commands/verify';
import { exportOf } from '../../fakes/ledger-export';
import { countDraft } from '../../fakes/ledger-facts';
import { hearConsole } from './said';

const DEMO = join(import.meta.dirname, '../../../demo-data/exports');
const KEY = readFileSync(join(DEMO, 'loft-key.txt'), 'utf8').trim();

let folder = '';
let said: string[] = [];
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'verify-'));
});
beforeEach(() => {
  said = hearConsole();
});
afterAll(async () => {
  vi.restoreAllMocks();
  await rm(folder, { recursive: true });
});

const FILE = exportOf(
  Array.from({ length: 120 }, (_, i) => countDraft('pack-1', i)),
  null,
);
const run = async (text: string): Promise<number> => {
  const file = join(folder, 'export.jsonl');
  await writeFile(file, text);
  return runVerify([file]);
};

describe('the command verify', () => {
  it('states size, root and key of a sound export and ends with 0', async () => {
    expect(await runVerify([join(DEMO, 'sound.jsonl')])).toBe(0);
    // The demo's clock was set back once: a note, which takes nothing from the export's soundness.
    expect(said[0]).toMatch(/^note: at fact \d+ the clock jumped from .*; dates are judged by the later day$/);
    expect(said[1]).toMatch(/^whole journal: 3 packs, \d+ facts, 3 checkpoints$/);
    expect(said[2]).toMatch(/^head as stated: \d+ facts, root [0-9a-f]{64}$/);
    // The key was found beside the file and compared, which proves little.
    expect(said.slice(3)).toEqual([
      `3 checkpoints signed with ${KEY}: the key in loft-key.txt beside the file, which proves nothing if it came with the file`,
      'sound',
    ]);
    said.length = 0;
    expect(await runVerify([join(DEMO, 'sound.jsonl'), '--key', KEY])).toBe(0);
    expect(said[3]).toBe(`3 checkpoints signed with ${KEY}: the loft’s key that was given`);
  });

  it('an export that nobody signed is not sound', async () => {
    expect(await run(makeExportText(FILE))).toBe(1);
    expect(said.join()).toMatch(/nobody vouches/);
  });

  it('says when no key was compared, and finds another key than the one given', async () => {
    expect(await run(await readFile(join(DEMO, 'sound.jsonl'), 'utf8'))).toBe(0);
    expect(said.join()).toContain('signed by a key that the file itself names: whose it is is not known');
    const other = KEY.replace('stowcall/', 'x/');
    expect(await runVerify([join(DEMO, 'sound.jsonl'), '--key', other])).toBe(1);
    expect(said.join()).toContain('none of the loft’s');
  });

  it('tells whether a card is genuine, alone or against an export', async () => {
    const text = (await readFile(join(DEMO, 'card.txt'), 'utf8')).trim();
    expect(await runVerify(['--paper', text, '--key', join(DEMO, 'loft-key.txt')])).toBe(0);
    expect(said).toContain('Last day of use: 2027-02-26');
    expect(await runVerify(['--paper', text, join(DEMO, 'sound.jsonl')])).toBe(0);
    expect(await runVerify(['--paper', text, join(DEMO, 'tampered-24-due-date.jsonl')])).toBe(1);
    expect(said.at(-1)).toBe('NOT GENUINE');
    expect(await runVerify(['--paper', text.replace('F', 'G'), '--key', KEY])).toBe(1);
    expect(await runVerify(['--paper', text])).toBe(2);
  });

  it('names the line of what was altered and ends with 1', async () => {
    expect(await run(makeExportText(FILE).replace('"count":7,', '"count":8,'))).toBe(1);
    expect(said).toContainEqual(expect.stringMatching(/export\.jsonl:9: altered: Fact 7 /));
    expect(said.at(-1)).toMatch(/NOT SOUND/);
  });

  it('counts what it does not print', async () => {
    expect(await run(makeExportText(FILE).replaceAll('"count"', '"cound"'))).toBe(1);
    expect(said.join()).toMatch(/\.\.\. and \d+ more findings/);
  });

  it('a missing file and wrong use end with 2', async () => {
    expect(await runVerify([join(folder, 'absent')])).toBe(2);
    expect(await runVerify([])).toBe(2);
    expect(await runVerify(['a', 'b'])).toBe(2);
  });
});
