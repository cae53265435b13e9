/** Addresses of grammars: relative references are resolved as RFC 3986 says, and file names are addresses too. */

/** Parts a reference from its fragment; a null fragment means that there is no "#". */
export function splitFragment(uri: string): { readonly address: string; readonly fragment: string | null } {
  const at = uri.indexOf('#');
  return at < 0 ? { address: uri, fragment: null } : { address: uri.slice(0, at), fragment: uri.slice(at + 1) };
}

interface Parts {
  /** With its colon; empty where there is none, as is each of the others. */
  readonly scheme: string;
  /** With its two slashes. */
  readonly authority: string;
  readonly path: string;
  /** With its question mark. */
  readonly query: string;
}

/** RFC 3986 appendix B, without the fragment: that names a rule, not a document. */
function partsOf(uri: string): Parts {
  const address = splitFragment(uri).address;
  const match = /^([A-Za-z][A-Za-z0-9+.-]*:)?(\/\/[^/?]*)?([^?]*)(\?.*)?$/s.exec(address);
  return { scheme: match?.[1] ?? '', authority: match?.[2] ?? '', path: match?.[3] ?? '', query: match?.[4] ?? '' };
}

/**
 * Resolves a reference against a base (RFC 3986 5.2.2). The base may be relative itself, which the standard does not
 * foresee: then the steps ".." of the result stay as they are.
 */
export function resolveUri(base: string, reference: string): string {
  const from = partsOf(base);
  const to = partsOf(reference);
  const fromRoot = from.scheme + from.authority;
  if (to.scheme !== '') return reference;
  if (to.authority !== '') return from.scheme + reference;
  if (to.path === '') return fromRoot + from.path + (to.query === '' ? from.query : to.query);
  if (to.path.startsWith('/')) return fromRoot + removeDots(to.path) + to.query;
  const path = merged(from, to.path);
  return (fromRoot === '' && !path.startsWith('/') ? path : fromRoot + removeDots(path)) + to.query;
}

/** RFC 3986 5.2.3. */
function merged(base: Parts, path: string): string {
  if (base.authority !== '' && base.path === '') return `/${path}`;
  return base.path.slice(0, base.path.lastIndexOf('/') + 1) + path;
}

/** The one form of an address by which a document is known: no fragment, no dot steps in its path. */
export function normalUri(uri: string): string {
  const { scheme, authority, path, query } = partsOf(uri);
  return scheme + authority + removeDots(path) + query;
}

/** Removes "." and ".." steps (RFC 3986 5.2.4); leading ".." of a relative path stay. */
export function removeDots(path: string): string {
  const kept: string[] = [];
  const steps = path.split('/');
  for (const [at, step] of steps.entries()) {
    const last = kept[kept.length - 1];
    const isLast = at === steps.length - 1;
    if (step === '..' && last !== undefined && last !== '..' && last !== '') kept.pop();
    else if (step !== '.' && (step !== '..' || last !== '')) {
      kept.push(step);
      continue;
    }
    // "b/." and "b/c/.." name the folder, and a folder ends with a slash.
    if (isLast) kept.push('');
  }
  return kept.join('/');
}
