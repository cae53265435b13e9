/** The example in the package's README runs, and prints what stands behind it. */
import { readFileSync } from 'node:fs';
import ts from 'typescript';
import { expect, it } from 'vitest';
import * as grammar from '../../../src/speech/grammar/index';

it('the example of the README does what it says', () => {
  const readme = readFileSync('src/speech/grammar/README.md', 'utf8');
  const code = /```ts\n([\s\S]*?)```/.exec(readme)?.[1] ?? '';
  const printed: unknown[] = [];
  const { outputText } = ts.transpileModule(code, { compilerOptions: { module: ts.ModuleKind.CommonJS } });
  const run = new Function('require', 'exports', 'console', outputText);
  run(() => grammar, {}, { log: (value: unknown) => printed.push(value) });
  const said = [...code.matchAll(/^console\.log\(.*\); \/\/ (.*)$/gm)].map(([, value = '']) =>
    new Function(`return (${value})`)(),
  );
  expect(said).toHaveLength(3);
  expect(printed).toEqual(said);
});
