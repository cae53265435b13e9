/** Canonical JSON (RFC 8785) of values that were read as JSON: the verifier's own writing of it. */

/** Deeper than any fact of ours. */
const MOST_LEVELS = 100;

/** The text; null for what is nested deeper than anything that a kiosk stores. */
export function canonicalText(value: unknown, level = 0): string | null {
  if (level > MOST_LEVELS) return null;
  if (Array.isArray(value)) return joined(value, '[]', (item) => canonicalText(item, level + 1));
  if (typeof value === 'object' && value !== null) {
    const members = new Map(Object.entries(value));
    // Default order compares UTF-16 code units, as RFC 8785 section 3.2.3 wants it.
    return joined([...members.keys()].sort(), '{}', (name) => {
      const text = canonicalText(members.get(name), level + 1);
      return text === null ? null : `${JSON.stringify(name)}:${text}`;
    });
  }
  // `-0` is written as `0`, by JSON.stringify as by the RFC.
  return JSON.stringify(value) ?? null;
}

function joined<T>(items: readonly T[], ends: '[]' | '{}', write: (item: T) => string | null): string | null {
  const parts: string[] = [];
  for (const item of items) {
    const text = write(item);
    if (text === null) return null;
    parts.push(text);
  }
  return `${ends.charAt(0)}${parts.join(',')}${ends.charAt(1)}`;
}
