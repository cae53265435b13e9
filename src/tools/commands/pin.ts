/** Makes the stored form of a PIN for the people file. The PIN comes from the terminal or a pipe, never from arguments. */
import { createInterface } from 'node:readline/promises';
import { Writable } from 'node:stream';
import { checkNewPin, PIN_LENGTH } from '../../domain/pin';
import { storePin } from '../../kiosk/pin/slow-hash';

const USAGE =
  `Usage: npm run -s stowcall -- pin  asks for a PIN of ${String(PIN_LENGTH.least)} to ${String(PIN_LENGTH.most)} digits ` +
  'and prints the line for people.yaml.';

/** Shows the question and nothing that is typed after it. */
function silent(): Writable {
  return new Writable({ write: (_chunk, _encoding, done) => done() });
}

/** One line from the input, without showing it. */
async function askPin(input: NodeJS.ReadableStream): Promise<string> {
  if (process.stdin.isTTY) process.stderr.write('PIN (not shown): ');
  const lines = createInterface({ input, output: silent(), terminal: process.stdin.isTTY });
  try {
    for await (const line of lines) return line.trim();
    return '';
  } finally {
    lines.close();
  }
}

/** Resolves to the exit code: 0 when the line was printed, 1 for digits that make no PIN, 2 for a wrong call. */
export async function runPin(args: readonly string[], input: NodeJS.ReadableStream = process.stdin): Promise<number> {
  if (args.length > 0) {
    console.error(`A PIN is not given as an argument: it would stay in the terminal's history.\n${USAGE}`);
    return 2;
  }
  const pin = checkNewPin(await askPin(input));
  if (!pin.ok) {
    console.error(`${pin.detail}\n${USAGE}`);
    return 1;
  }
  console.log(`pin: '${await storePin(pin.value)}'`);
  return 0;
}
