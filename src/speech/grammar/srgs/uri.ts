/** Just enough of RFC 3986 to follow a reference from one grammar to another. */

/** Parts a reference from its fragment; a null fragment means that there is no "#". */
export function splitFragment(uri: string): { readonly address: string; readonly fragment: string | null } {
  const at = uri.indexOf('#');
  return at < 0 ? { address: uri, fragment: null } : { address: uri.slice(0, at), fragment: uri.slice(at + 1) };
}

/** Resolves a reference against a base (RFC 3986 5.2), either of which may be relative: file names are addresses too. */
export function resolveUri(base: string, reference: string): string {
  if (/^[A-Za-z][A-Za-z0-9+.-]*:/.test(reference)) return reference;
  const root = /^([A-Za-z][A-Za-z0-9+.-]*:)?(\/\/[^/?#]*)?/.exec(base)?.[0] ?? '';
  if (reference.startsWith('//')) return (/^[A-Za-z][A-Za-z0-9+.-]*:/.exec(base)?.[0] ?? '') + reference;
  if (reference.startsWith('/')) return root + removeDots(reference);
  const path = base.slice(root.length).replace(/[?#].*$/s, '');
  const merged = path.slice(0, path.lastIndexOf('/') + 1) + reference;
  return root === '' && !merged.startsWith('/') ? merged : root + removeDots(merged);
}

/** Removes "." and ".." steps (RFC 3986 5.2.4); leading ".." of a relative path stay. */
export function removeDots(path: string): string {
  const kept: string[] = [];
  for (const step of path.split('/')) {
    const last = kept[kept.length - 1];
    if (step === '.') continue;
    if (step === '..' && last !== undefined && last !== '..' && last !== '') kept.pop();
    else if (step !== '..' || last !== '') kept.push(step);
  }
  return kept.join('/');
}
