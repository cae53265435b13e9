/** What of a spoken prompt is not yet on the screen: a stage that is read out whole already stands there, large. */

function withStop(text: string): string {
  const trimmed = text.trim();
  return trimmed === '' || /[.!?:]$/.test(trimmed) ? trimmed : `${trimmed}.`;
}

/** Where `wanted` stands as a sentence of its own, and not as the end of another one; -1 for nowhere. */
function placeOf(prompt: string, wanted: string): number {
  for (let at = prompt.indexOf(wanted); at >= 0; at = prompt.indexOf(wanted, at + 1)) {
    if (/(^|[.!?:])\s*$/.test(prompt.slice(0, at))) return at;
  }
  return -1;
}

/** Takes one shown piece out of the prompt; the prompt may have ended it with a full stop. */
function without(prompt: string, piece: string): string {
  const wanted = withStop(piece);
  const at = wanted === '' ? -1 : placeOf(prompt, wanted);
  return at < 0 ? prompt : `${prompt.slice(0, at)} ${prompt.slice(at + wanted.length)}`;
}

/** The sentences of `prompt` that none of the pieces on the screen says; empty when all are there. */
export function leftOver(prompt: string, shown: readonly string[]): string {
  // Longer pieces first, so that a short one does not tear a longer one apart.
  const pieces = [...shown].sort((a, b) => b.length - a.length);
  return pieces.reduce(without, prompt).replace(/\s+/g, ' ').trim();
}
