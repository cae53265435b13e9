/** Runs a schema over a file's data and says in plain words, with the place, what does not fit. */
import type { z } from 'zod';
import type { LocatedFile } from './located-yaml';
import type { Fault, Problem } from './refusal';
import { FAULTS } from './refusal';

/** What a field is called in a sentence: the last name on its path. */
function nameOf(path: readonly PropertyKey[]): string {
  const name = path.findLast((key) => typeof key === 'string');
  return name === undefined ? 'The file' : `"${String(name)}"`;
}

function valueAt(data: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>((value, key) => {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
    return (value as Record<PropertyKey, unknown>)[key];
  }, data);
}

function faultOf(params: unknown): Fault {
  const named = (params as { readonly fault?: unknown } | undefined)?.fault;
  return FAULTS.find((fault) => fault === named) ?? 'bad-text';
}

function words(values: readonly unknown[]): string {
  return values.map(String).join(', ');
}

function tooSmall(name: string, issue: z.core.$ZodIssueTooSmall): Omit<Problem, 'path'> {
  const least = String(issue.minimum);
  if (issue.origin === 'array')
    return { fault: 'too-few', reason: `${name} has too few entries: at least ${least} must be there.` };
  return { fault: 'too-small', reason: `${name} must be at least ${least}.` };
}

function tooBig(name: string, issue: z.core.$ZodIssueTooBig): Omit<Problem, 'path'> {
  const most = String(issue.maximum);
  if (issue.origin === 'array')
    return { fault: 'too-many', reason: `${name} has too many entries: at most ${most} are allowed.` };
  return { fault: 'too-big', reason: `${name} must be at most ${most}.` };
}

function wrongWord(name: string, given: unknown, allowed: readonly unknown[]): Omit<Problem, 'path'> {
  const shown = typeof given === 'string' ? `"${given.slice(0, 40)}" is unknown` : 'a word is expected';
  return { fault: 'unknown-word', reason: `${name}: ${shown}. Use one of: ${words(allowed)}.` };
}

function problemsOf(issue: z.core.$ZodIssue, data: unknown): readonly Problem[] {
  const { path } = issue;
  const name = nameOf(path);
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({
      path: [...path, key],
      fault: 'unknown-field',
      reason: `"${key.slice(0, 40)}" is not a field that belongs here. Correct its name or take it out.`,
    }));
  }
  if (issue.code === 'custom') return [{ path, fault: faultOf(issue.params), reason: `${name}: ${issue.message}` }];
  const missing = issue.code === 'invalid_union' ? [...path] : path;
  if (valueAt(data, missing) === undefined && missing.length > 0) {
    return [{ path, fault: 'missing-field', reason: `${name} is missing. Add it.` }];
  }
  if (issue.code === 'too_small') return [{ path, ...tooSmall(name, issue) }];
  if (issue.code === 'too_big') return [{ path, ...tooBig(name, issue) }];
  if (issue.code === 'invalid_value') return [{ path, ...wrongWord(name, valueAt(data, path), issue.values) }];
  if (issue.code === 'invalid_union' && issue.discriminator !== undefined) {
    const { options } = issue as { readonly options?: readonly unknown[] };
    return [{ path, ...wrongWord(name, valueAt(data, path), options ?? []) }];
  }
  const expected = issue.code === 'invalid_type' ? issue.expected : 'something else';
  return [{ path, fault: 'wrong-type', reason: `${name} has the wrong form: ${plain(expected)} is expected.` }];
}

function plain(expected: string): string {
  const said: Readonly<Record<string, string>> = {
    object: 'a group of fields',
    array: 'a list',
    string: 'text (put numbers and dates in quotes)',
    int: 'a whole number',
    number: 'a number',
    boolean: 'true or false',
  };
  return said[expected] ?? expected;
}

export type Shaped<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problems: readonly Problem[] };

/** The data in the schema's form, or every place where it does not fit. */
export function checkShape<T>(schema: z.ZodType<T>, located: LocatedFile): Shaped<T> {
  const parsed = schema.safeParse(located.data);
  if (parsed.success) return { ok: true, value: parsed.data };
  return { ok: false, problems: parsed.error.issues.flatMap((issue) => problemsOf(issue, located.data)) };
}
