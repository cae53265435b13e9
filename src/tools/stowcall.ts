/** The command line: `npm run -s stowcall -- <command>`. Each command is loaded only when it is asked for. */

interface Command {
  readonly does: string;
  /** Answers the exit code: 0 for nothing found, 1 for findings, 2 for a wrong call. */
  readonly run: (args: readonly string[]) => Promise<number>;
}

const COMMANDS: Readonly<Record<string, Command>> = {
  lint: {
    does: 'check the files of a loft: every finding with file and line',
    run: async (args) => (await import('./commands/lint')).runLint(args),
  },
  labels: {
    does: 'make the printable sheets of labels, badges and command card',
    run: async (args) => (await import('./commands/labels')).runLabels(args),
  },
  badge: {
    does: 'draw a new badge: its line for badges.yaml, and its digest for people.yaml',
    run: async (args) => (await import('./commands/badge')).runBadge(args),
  },
  pin: {
    does: 'make the stored form of a PIN for the people file',
    run: async (args) => (await import('./commands/pin')).runPin(args),
  },
  'srgs-check': {
    does: 'run rows of a conformance file against SRGS grammars',
    run: async (args) => (await import('./commands/srgs-check')).runSrgsCheck(args),
  },
  'merkle-check': {
    does: 'run published RFC 6962 proof cases through our proof checks',
    run: async (args) => (await import('./commands/merkle-check')).runMerkleCheck(args),
  },
  verify: {
    does: 'recompute an exported journal, or one pack of it, from its bytes',
    run: async (args) => (await import('./commands/verify')).runVerify(args),
  },
  exports: {
    does: 'pack at a table without a browser; write the sound export and the tampered ones',
    run: async (args) => (await import('./commands/exports')).runExports(args),
  },
  'export-schema': {
    does: 'write the JSON Schema of one line of an export',
    run: async () => (await import('./commands/export-schema')).runExportSchema(),
  },
  confusions: {
    does: 'list the commands that sound most alike',
    run: async (args) => (await import('./commands/confusions')).runConfusions(args),
  },
};

/** Runs one command of the command line and answers its exit code. */
export async function runStowcall(args: readonly string[]): Promise<number> {
  const [name = '', ...rest] = args;
  const command = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (command !== undefined) return command.run(rest);
  if (name !== '') console.error(`There is no command "${name}".`);
  console.error('Usage: npm run -s stowcall -- <command>');
  for (const [known, { does }] of Object.entries(COMMANDS)) console.error(`  ${known.padEnd(13)} ${does}`);
  return 2;
}

if (import.meta.url === `file://${process.argv[1] ?? ''}`) process.exitCode = await runStowcall(process.argv.slice(2));
