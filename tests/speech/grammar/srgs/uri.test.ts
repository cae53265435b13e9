/** Addresses of grammars (RFC 3986). */
import { describe, expect, it } from 'vitest';
import { normalUri, removeDots, resolveUri, splitFragment } from '../../../../src/speech/grammar/srgs/uri';

describe('addresses', () => {
  /** RFC 3986 section 5.4, with its base; fragments aside, which name a rule and no document. */
  it.each([
    ['g:h', 'g:h'],
    ['g', 'http://a/b/c/g'],
    ['', 'http://a/b/c/d;p?q'],
    ['?y', 'http://a/b/c/d;p?y'],
    ['.', 'http://a/b/c/'],
    ['./', 'http://a/b/c/'],
    ['..', 'http://a/b/'],
    ['../', 'http://a/b/'],
    ['../..', 'http://a/'],
    ['../../', 'http://a/'],
    ['../../../../g', 'http://a/g'],
    ['g;x', 'http://a/b/c/g;x'],
    ['.g', 'http://a/b/c/.g'],
    ['g..', 'http://a/b/c/g..'],
    ['./g/.', 'http://a/b/c/g/'],
    ['g;x=1/./y', 'http://a/b/c/g;x=1/y'],
    ['g;x=1/../y', 'http://a/b/c/y'],
    ['g?y/./x', 'http://a/b/c/g?y/./x'],
    ['g?y/../x', 'http://a/b/c/g?y/../x'],
    ['./g', 'http://a/b/c/g'],
    ['g/', 'http://a/b/c/g/'],
    ['/g', 'http://a/g'],
    ['//g', 'http://g'],
    ['g?y', 'http://a/b/c/g?y'],
    ['g/x:h', 'http://a/b/c/g/x:h'],
    ['ab+c.d-1:x', 'ab+c.d-1:x'],
    [';x', 'http://a/b/c/;x'],
    ['../g', 'http://a/b/g'],
    ['../../g', 'http://a/g'],
    ['../../../g', 'http://a/g'],
    ['/./g', 'http://a/g'],
    ['/../g', 'http://a/g'],
    ['g.', 'http://a/b/c/g.'],
    ['..g', 'http://a/b/c/..g'],
    ['./../g', 'http://a/b/g'],
    ['g/./h', 'http://a/b/c/g/h'],
    ['g/../h', 'http://a/b/c/h'],
  ])('%s is %s', (reference, expected) => {
    expect(resolveUri('http://a/b/c/d;p?q', reference)).toBe(expected);
  });

  it.each([
    ['', 'b.gram', 'b.gram'],
    ['main.gram', 'b.gram', 'b.gram'],
    ['sub/main.gram', 'b.gram', 'sub/b.gram'],
    ['sub/main.gram', '../b.gram', 'sub/../b.gram'],
    ['/sub/main.gram', '../b.gram', '/b.gram'],
    ['sub/main.gram', '/b.gram', '/b.gram'],
    ['main.gram', '//host/b.gram', '//host/b.gram'],
    ['//host/x/main.gram', 'b.gram', '//host/x/b.gram'],
    ['http://host', '/b.gram', 'http://host/b.gram'],
    ['http://host', 'b.gram', 'http://host/b.gram'],
    ['//host/x/main.gram', '/b.gram', '//host/b.gram'],
    ['a:x/y', '../z', 'a:z'],
    ['x/y:z', '//host/b.gram', '//host/b.gram'],
    ['main.gram#a', 'b.gram', 'b.gram'],
    ['sub/main.gram?x/y', 'b.gram', 'sub/b.gram'],
    ['a+b-c.1:x/y', 'z', 'a+b-c.1:x/z'],
    ['main.gram', '1a:b', '1a:b'],
  ])('from %s %s is %s', (base, reference, expected) => {
    expect(resolveUri(base, reference)).toBe(expected);
  });

  it.each([
    ['a/../b', 'b'],
    ['a/./b', 'a/b'],
    ['../a', '../a'],
    ['../../a', '../../a'],
    ['a/../../b', '../b'],
    ['/../a', '/a'],
    ['./a', 'a'],
  ])('%s without its dots is %s', (path, expected) => {
    expect(removeDots(path)).toBe(expected);
  });

  it.each([
    ['http://x/../a?b/../c#d', 'http://x/a?b/../c'],
    ['a/./b.gram', 'a/b.gram'],
    ['../b.gram', '../b.gram'],
  ])('the normal form of %s is %s', (uri, expected) => {
    expect(normalUri(uri)).toBe(expected);
  });

  it('are parted from their fragment', () => {
    expect(splitFragment('a')).toEqual({ address: 'a', fragment: null });
    expect(splitFragment('a#')).toEqual({ address: 'a', fragment: '' });
    expect(splitFragment('#b')).toEqual({ address: '', fragment: 'b' });
    expect(splitFragment('a#b#c')).toEqual({ address: 'a', fragment: 'b#c' });
  });
});
