/** Reading a tag (SISR 1.0): which formats are ours, and what is said of a script that cannot be read. */
import { describe, expect, it } from 'vitest';
import { parseTag } from '../../../../src/speech/grammar/sisr/parse-tag';
import { FORMAT } from './run-script';

describe('the tag format (SISR 1.0 section 4)', () => {
  it.each([
    ['semantics/1.0', 'script'],
    ['semantics/1.0.2006', 'script'],
    ['semantics/1.0-literals', 'literal'],
    ['semantics/1.0.2006-literals', 'literal'],
    ['semantics/1.0.2007', 'ignored'],
    ['semantics/1x0', 'ignored'],
    ['semantics/1.0x', 'ignored'],
    ['x-semantics/1.0', 'ignored'],
    ['x-semantics/1.0-literals', 'ignored'],
    ['semantics/1.0-literals-x', 'ignored'],
    [null, 'ignored'],
  ])('%s: %s', (format, kind) => {
    expect(parseTag(format, 'out = 1;').kind).toBe(kind);
  });
});

describe('a tag that cannot be read', () => {
  it.each([
    ['out = "\\x";', '"\\x" in a string is not understood.'],
    ['out = #hash and more words;', '"#hash and " cannot be read.'],
    ['out = "x', '""x" cannot be read.'],
    ["out = 'x\n';", '"\'x\n\';" cannot be read.'],
    ['out = ;', '";" was not expected here.'],
    ['out = 1', null],
    ['out = (1', '"the end of the tag" was not expected here.'],
    ['out = [1', '"the end of the tag" was not expected here.'],
    ['out = [1 2]', '"2" was not expected here.'],
    ['out = {a 1}', '"1" was not expected here.'],
    ['out = {a: 1', '"the end of the tag" was not expected here.'],
    ['out = {[1]: 1}', '"[" was not expected here.'],
    ['out = 1 ? 2', '"the end of the tag" was not expected here.'],
    ['out = a.1', '".1" was not expected here.'],
    ['out = a[1', '"the end of the tag" was not expected here.'],
    ['out = a.b(1', '"the end of the tag" was not expected here.'],
    ['out = 1 out = 2', '"out" was not expected here.'],
    ['var = 1', '"=" was not expected here.'],
    ['var x 1', '"1" was not expected here.'],
    ['var x', '"the end of the tag" was not expected here.'],
    ['var x.y = 1', '"." was not expected here.'],
    ['out = 1 "+" 2', '"+" was not expected here.'],
    ['out = new "Object"', '"Object" was not expected here.'],
    ['1 = 2', 'Only names can be assigned to.'],
    ['a.b() += 2', 'Only names can be assigned to.'],
    ['out = new Date', '"new Date" is not allowed.'],
    ['out = new Array(', '"the end of the tag" was not expected here.'],
    ['out.__proto__ = 1', 'The name __proto__ is not allowed.'],
    ['out.prototype = 1', 'The name prototype is not allowed.'],
    ['out = a.constructor()', 'The name constructor is not allowed.'],
    ['out = {"constructor": 1}', 'The name constructor is not allowed.'],
    ['out = {__proto__: 1}', 'The name __proto__ is not allowed.'],
    [`out = ${'('.repeat(41)}1${')'.repeat(41)}`, 'The tag is nested too deep.'],
    [`out = ${'('.repeat(40)}1${')'.repeat(40)}`, null],
    [`out = ${'['.repeat(41)}1${']'.repeat(41)}`, 'The tag is nested too deep.'],
    [`out = ${'!'.repeat(41)}1`, 'The tag is nested too deep.'],
    [`out = ${'!'.repeat(40)}1`, null],
    [`out = ${'{a:'.repeat(41)}1${'}'.repeat(41)}`, 'The tag is nested too deep.'],
    [`out = ${'a['.repeat(41)}1${']'.repeat(41)}`, 'The tag is nested too deep.'],
    [`out = ${'1?'.repeat(41)}1${':1'.repeat(41)}`, 'The tag is nested too deep.'],
    [`out = ${'1?1:'.repeat(41)}1`, 'The tag is nested too deep.'],
    [`out = 1;${' '.repeat(3_992)}`, null],
    [`out = 1;${' '.repeat(3_993)}`, 'The tag is too long.'],
  ])('%s', (content, detail) => {
    const read = parseTag(FORMAT, content);
    if (detail === null) expect(read.kind).toBe('script');
    else expect(read).toEqual({ kind: 'broken', detail });
  });
});
