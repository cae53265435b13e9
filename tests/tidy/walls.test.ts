/** Each wall between folders refuses what it is for: a small tree with one forbidden import for each rule is cruised. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const CONFIG = join(ROOT, '.dependency-cruiser.cjs');

interface Violation {
  readonly from: string;
  readonly to: string;
  readonly rule: { readonly name: string };
}

/** Rule, file, and what it may not import. */
const REFUSED: readonly (readonly [string, string, string])[] = [
  ['no-cycles', 'src/domain/one.ts', './two'],
  ['not-unresolvable', 'src/domain/lost.ts', './nowhere'],
  ['domain-imports-nothing', 'src/domain/bad.ts', '../packing/pack'],
  ['domain-has-no-packages', 'src/domain/packaged.ts', 'zod'],
  ['packing-imports-domain', 'src/packing/bad.ts', '../loft/parse'],
  ['loft-imports-domain', 'src/loft/bad.ts', '../packing/pack'],
  ['grammar-keeps-to-itself', 'src/speech/grammar/bad.ts', '../../domain/date'],
  ['grammar-keeps-to-itself', 'src/speech/grammar/by-name.ts', '@stowcall/web-speech/api'],
  ['grammar-keeps-to-itself', 'src/speech/grammar/by-path.ts', '../web-speech/api'],
  ['web-speech-sees-grammar', 'src/speech/web-speech/bad.ts', '../../domain/date'],
  ['web-speech-sees-grammar', 'src/speech/web-speech/calibration/bad.ts', '../../../voice/hearing'],
  ['web-speech-sees-grammar', 'src/speech/web-speech/calibration/tool.ts', '../../../tools/serve.mjs'],
  ['phrases-see-domain-and-speech', 'src/voice/phrases/bad.ts', '../mouth'],
  ['symbology-imports-domain', 'src/scan/symbology/bad.ts', '../sighting'],
  ['chain-imports-domain', 'src/record/chain/bad.ts', '../store/store'],
  ['voice-sees-domain-and-speech', 'src/voice/bad.ts', '../scan/sighting'],
  ['scan-keeps-to-itself', 'src/scan/bad.ts', '../voice/hearing'],
  ['record-keeps-to-itself', 'src/record/store/bad.ts', '../../packing/pack'],
  ['screens-see-domain-and-packing', 'src/screens/bad.ts', '../voice/hearing'],
  ['screens-see-the-pack-through-the-contract', 'src/screens/start/bad.ts', '../../packing/pack'],
  ['kiosk-sees-the-contract', 'src/kiosk/drawn.ts', '../screens/start/StartScreen'],
  ['kiosk-sees-the-contract', 'src/kiosk/root.ts', '../screens/App'],
  ['compose-sees-the-root-component', 'src/kiosk/compose.tsx', '../screens/start/StartScreen'],
  ['verifier-never-imports-the-writer', 'src/record/verify/writer.ts', '../chain/hash'],
  ['verifier-takes-only-types-of-the-nouns', 'src/record/verify/nouns.ts', '../../domain/date'],
  ['verifier-has-no-packages', 'src/record/verify/packaged.ts', '@noble/hashes'],
  ['writer-never-imports-the-verifier', 'src/record/chain/judge.ts', '../verify/judge'],
  ['page-has-no-node', 'src/kiosk/node.ts', 'node:fs'],
  ['page-has-no-node', 'src/domain/node.ts', 'node:fs'],
  ['page-has-no-packages-for-development', 'src/kiosk/develop.ts', 'fake-indexeddb'],
  ['page-imports-no-tools', 'src/kiosk/tool.ts', '../tools/serve.mjs'],
  ['page-imports-no-calibration', 'src/kiosk/calibrated.ts', '@stowcall/web-speech/calibration/meter'],
  ['page-imports-no-calibration', 'src/speech/web-speech/calibrated.ts', './calibration/meter'],
  ['nobody-imports-tests', 'src/kiosk/tested.ts', '../../tests/bench/scan'],
  ['nobody-imports-tests', 'src/speech/web-speech/calibration/tested.ts', '../../../../tests/bench/scan'],
  ['nobody-imports-the-root', 'src/screens/root.ts', '../kiosk/kiosk'],
  ['tools-see-no-screens-and-no-devices', 'src/tools/screen.ts', '../screens/App'],
  ['tools-see-no-screens-and-no-devices', 'src/tools/camera.ts', '../scan/camera/reader'],
  ['tools-see-no-screens-and-no-devices', 'src/tools/ear.ts', '@stowcall/web-speech/api'],
  ['react-has-one-home', 'src/packing/drawn.ts', 'react'],
  ['xstate-has-one-home', 'src/voice/state.ts', 'xstate'],
  ['yaml-has-one-home', 'src/tools/yaml.ts', 'yaml'],
  ['idb-has-one-home', 'src/screens/stored.ts', 'idb'],
  ['zxing-has-one-home', 'src/scan/wedge/reads.ts', 'zxing-wasm'],
  ['speech-engines-have-one-home', 'src/voice/engine.ts', 'soundswallower'],
];

const ALLOWED: readonly (readonly [string, string])[] = [
  ['src/packing/good.ts', '../domain/date'],
  ['src/record/verify/good.ts', 'type ../../domain/date'],
  ['src/voice/phrases/good.ts', '@stowcall/grammar/match'],
  ['src/speech/web-speech/good.ts', '@stowcall/grammar/match'],
  ['src/speech/web-speech/calibration/good.ts', 'node:fs'],
  ['src/kiosk/good.ts', '../screens/contract/app-view'],
  ['src/screens/contract/good.ts', '../../packing/pack'],
  ['src/tools/good.ts', '../record/verify/judge'],
  ['src/scan/camera/good.ts', 'zxing-wasm'],
];

/** What the forbidden imports point at. */
const TARGETS = [
  'src/domain/date.ts',
  'src/packing/pack.ts',
  'src/loft/parse.ts',
  'src/speech/grammar/match.ts',
  'src/speech/web-speech/api.ts',
  'src/speech/web-speech/calibration/meter.ts',
  'src/voice/hearing.ts',
  'src/voice/mouth.ts',
  'src/scan/sighting.ts',
  'src/scan/camera/reader.ts',
  'src/record/store/store.ts',
  'src/record/chain/hash.ts',
  'src/record/verify/judge.ts',
  'src/screens/App.ts',
  'src/screens/contract/app-view.ts',
  'src/screens/start/StartScreen.ts',
  'src/kiosk/kiosk.ts',
  'src/tools/serve.mjs',
  'tests/bench/scan.ts',
];

const PACKAGES = ['zod', '@noble/hashes', 'react', 'xstate', 'yaml', 'idb', 'zxing-wasm', 'soundswallower'];

/** A line that uses what it imports. */
const importing = (what: string): string =>
  what.startsWith('type ')
    ? `import type { Thing } from '${what.slice('type '.length)}';\nexport const thing: Thing = 1;\n`
    : `import { thing } from '${what}';\nexport const other = thing;\n`;

function cruised(): readonly Violation[] {
  const root = mkdtempSync(join(tmpdir(), 'stowcall-walls-'));
  const write = (file: string, text: string): void => {
    mkdirSync(dirname(join(root, file)), { recursive: true });
    writeFileSync(join(root, file), text);
  };
  const packageJson = (rest: object): string => JSON.stringify({ version: '1.0.0', type: 'module', ...rest });
  const versions = (names: readonly string[]): object => Object.fromEntries(names.map((name) => [name, '1.0.0']));
  const own = ['@stowcall/grammar', '@stowcall/web-speech'];
  const dependencies = versions([...PACKAGES, ...own]);
  write('package.json', packageJson({ dependencies, devDependencies: versions(['fake-indexeddb']) }));
  write('tsconfig.json', '{}');
  for (const name of [...PACKAGES, 'fake-indexeddb']) {
    write(`node_modules/${name}/package.json`, packageJson({ name, main: 'index.js' }));
    write(`node_modules/${name}/index.js`, 'export const thing = 1;\n');
  }
  mkdirSync(join(root, 'node_modules/@stowcall'));
  for (const name of own) {
    const folder = name.replace('@stowcall', 'src/speech');
    write(`${folder}/package.json`, packageJson({ name, exports: { './*': './*.ts' }, dependencies }));
    symlinkSync(join(root, folder), join(root, 'node_modules', name));
  }
  for (const file of TARGETS) write(file, 'export type Thing = number;\nexport const thing = 1;\n');
  for (const [, file, what] of REFUSED) write(file, importing(what));
  for (const [file, what] of ALLOWED) write(file, importing(what));
  write('src/domain/two.ts', "export { other as thing } from './one';\n");
  const cruise = join(ROOT, 'node_modules/dependency-cruiser/bin/dependency-cruise.mjs');
  const args = [cruise, 'src', '--config', CONFIG, '--output-type', 'json'];
  const { stdout } = spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8' });
  return (JSON.parse(stdout) as { summary: { violations: readonly Violation[] } }).summary.violations;
}

describe('the walls between folders', () => {
  const violations = cruised();
  const rulesBrokenBy = (file: string): readonly string[] =>
    violations.filter(({ from }) => from === file).map(({ rule }) => rule.name);

  it.each(REFUSED)('%s: %s may not import %s', (rule, file) => {
    expect(rulesBrokenBy(file)).toContain(rule);
  });

  it.each(ALLOWED)('%s may import %s', (file) => {
    expect(rulesBrokenBy(file)).toEqual([]);
  });

  it('are each shown to refuse something', () => {
    const { forbidden } = createRequire(import.meta.url)(CONFIG) as { forbidden: readonly { name: string }[] };
    expect(forbidden.map(({ name }) => name).sort()).toEqual([...new Set(REFUSED.map(([rule]) => rule))].sort());
  });

  it('are asked for by npm test', () => {
    expect(readFileSync(join(ROOT, 'src/tools/test.mjs'), 'utf8')).toContain('.dependency-cruiser.cjs');
  });
});
