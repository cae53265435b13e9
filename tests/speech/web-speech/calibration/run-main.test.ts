/** A bench that cannot go on says so in one sentence. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { sentenceOf } from '@stowcall/web-speech/calibration/run-main';

const ROOT = fileURLToPath(new URL('../../../..', import.meta.url));

describe('what went wrong', () => {
  it.each<[string, unknown, string]>([
    [
      'a missing file',
      Object.assign(new Error('ENOENT: x'), { code: 'ENOENT', path: 'a.jsonl' }),
      'a.jsonl is not there.',
    ],
    [
      'a folder',
      Object.assign(new Error('EISDIR: x'), { code: 'EISDIR' }),
      'A path that was given is a folder; a file is wanted.',
    ],
    ['our own sentence', new Error('row 3: no "wav".'), 'row 3: no "wav".'],
    ['no error at all', 'gone', 'gone'],
  ])('is one sentence: %s', (_, error, sentence) => {
    expect(sentenceOf(error)).toBe(sentence);
  });

  it('ends a bench that loads the engine with that sentence and nothing else', () => {
    const args = ['--utterances', '/nowhere/utterances.jsonl', '--grammar', 'grammars/commands.gram'];
    const tsx = join(ROOT, 'node_modules/tsx/dist/cli.mjs');
    const ended = spawnSync(process.execPath, [tsx, 'tests/bench/speech.ts', ...args], {
      cwd: ROOT,
      encoding: 'utf8',
    });
    expect(ended.stderr.trim()).toBe('/nowhere/utterances.jsonl is not there.');
    expect(ended.status).toBe(2);
  });
});
