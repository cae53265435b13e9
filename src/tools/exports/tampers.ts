/** Ways to tamper with an export: clumsy ones, ones of a forger without the key, and lies of somebody who has it. */
import { makeExportText } from '../../record/chain/export-file';
import { FORMAT_TAMPERS } from './format-tampers';
import { INSIDER_RECORD_TAMPERS } from './insider-record-tampers';
import { INSIDER_WORK_TAMPERS } from './insider-work-tampers';
import { PROCEDURE_TAMPERS } from './procedure-tampers';
import { RESTORE_TAMPERS } from './restore-tampers';
import { remake, remakeText } from './remake';
import type { Sound, Tamper } from './tamper';

const byLines =
  (change: (lines: string[], sound: Sound) => string[]) =>
  (sound: Sound): string =>
    change(sound.text.split('\n'), sound).join('\n');

/** Index of the line of the n-th fact of this kind. */
function lineOf(lines: readonly string[], kind: string): number {
  return lines.findIndex((line) => line.includes(`"kind":"${kind}"`));
}

const CLUMSY: readonly Tamper[] = [
  {
    name: 'bit',
    done: 'One bit of one character of a counted value was changed.',
    finds: 'altered',
    make: byLines((lines) => {
      const at = lineOf(lines, 'counted');
      return lines.with(
        at,
        (lines[at] ?? '').replace(/"count":(\d)/, (_, digit: string) => `"count":${Number(digit) ^ 1}`),
      );
    }),
  },
  {
    name: 'dropped',
    done: 'The fact of a return by the inspector was taken out.',
    finds: 'missing',
    make: byLines((lines) => lines.toSpliced(lineOf(lines, 'holdReturned'), 1)),
  },
  {
    name: 'repeated',
    done: 'A stow was written twice.',
    finds: 'repeated',
    make: byLines((lines) => {
      const at = lineOf(lines, 'stowed');
      return lines.toSpliced(at, 0, lines[at] ?? '');
    }),
  },
  {
    name: 'swapped',
    done: 'Two facts that follow one another were exchanged.',
    finds: 'out-of-order',
    make: byLines((lines) => {
      const at = lineOf(lines, 'holdReleased');
      return lines.with(at, lines[at + 1] ?? '').with(at + 1, lines[at] ?? '');
    }),
  },
  {
    name: 'moved',
    done: 'A fact was moved to the end of the facts.',
    finds: 'out-of-order',
    make: byLines((lines, { file }) => {
      const at = lineOf(lines, 'measured');
      return lines.toSpliced(at, 1).toSpliced(file.facts.length, 0, lines[at] ?? '');
    }),
  },
  {
    name: 'truncated',
    done: 'The file ends in the middle of a line.',
    finds: 'cut-short',
    make: ({ text }) => text.slice(0, Math.floor(text.length * 0.6)),
  },
  {
    name: 'foreign',
    done: 'A fact was replaced by one of another kiosk.',
    finds: 'altered',
    make: byLines((lines, { foreign }) => lines.with(lineOf(lines, 'toolReturned'), foreign)),
  },
];

const FORGED: readonly Tamper[] = [
  {
    name: 'recomputed',
    done: 'A finding was erased and every hash made anew, but the old checkpoints were kept.',
    finds: 'checkpoint',
    make: async ({ file, signer }) => {
      const facts = file.facts.map(({ fact }) => fact).filter(({ body }) => body.kind !== 'scanRefused');
      return makeExportText({ ...(await remake(facts, signer)), checkpoints: file.checkpoints });
    },
  },
  {
    name: 'bent-checkpoint',
    done: 'The size in a checkpoint was changed under its signature.',
    finds: 'signature',
    make: ({ file }) => {
      const checkpoints = file.checkpoints.map((note, at) => (at === 0 ? note.replace(/\n(\d+)\n/, '\n3\n') : note));
      return makeExportText({ ...file, checkpoints });
    },
  },
  {
    name: 'other-key',
    done: 'Everything was signed again with another key of the same name, and that key was put into the header.',
    finds: 'key',
    make: ({ file, forger }) =>
      remakeText(
        file.facts.map(({ fact }) => fact),
        forger,
      ),
  },
  {
    name: 'unsigned',
    done: 'The signatures were taken off the checkpoints.',
    finds: 'signature',
    make: ({ file }) =>
      makeExportText({ ...file, checkpoints: file.checkpoints.map((note) => note.slice(0, note.indexOf('\n\n') + 1)) }),
  },
  {
    name: 'no-checkpoints',
    done: 'All checkpoints were taken out.',
    finds: 'checkpoint',
    make: ({ file }) => makeExportText({ ...file, checkpoints: [] }),
  },
];

/** All of them, each with its own name. */
export const TAMPERS: readonly Tamper[] = [
  ...CLUMSY,
  ...FORGED,
  ...INSIDER_WORK_TAMPERS,
  ...INSIDER_RECORD_TAMPERS,
  ...FORMAT_TAMPERS,
  ...PROCEDURE_TAMPERS,
  ...RESTORE_TAMPERS,
];
