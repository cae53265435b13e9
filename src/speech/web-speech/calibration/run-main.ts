/** How a bench or a calibration ends when it cannot go on: with one sentence, not with the source of whatever threw. */

const WHY: Readonly<Record<string, string>> = {
  ENOENT: 'is not there',
  EISDIR: 'is a folder; a file is wanted',
  ENOTDIR: 'lies below something that is no folder',
  EACCES: 'may not be read',
};

/** What went wrong, for the person at the terminal. */
export function sentenceOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  const { code, path } = error as NodeJS.ErrnoException;
  const why = code === undefined ? undefined : WHY[code];
  return why === undefined ? error.message : `${path ?? 'A path that was given'} ${why}.`;
}

/**
 * Runs a program's main part and sets the exit code: the number that it answers, 0 for none, 2 where it threw. The stack is printed only on
 * wish (`STOWCALL_STACK=1`): an engine that Node quotes from is one line of a quarter of a million characters.
 */
export async function runMain(main: () => Promise<unknown>): Promise<void> {
  try {
    const answer = await main();
    process.exitCode = typeof answer === 'number' ? answer : 0;
  } catch (error) {
    console.error(sentenceOf(error));
    if (process.env['STOWCALL_STACK'] !== undefined && error instanceof Error) console.error(error.stack);
    process.exitCode = 2;
  }
}
