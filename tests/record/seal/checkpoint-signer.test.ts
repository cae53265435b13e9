/** The signer on IndexedDB in memory: signed, kept, never contradicted, and marked where it cannot sign. */
import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { parseCheckpointText, UNSIGNED_LINE } from '../../../src/record/chain/checkpoint';
import { emptyRoot, leafHash, makeHashHex } from '../../../src/record/chain/hash';
import { parseKeyText, parseNote } from '../../../src/record/chain/note';
import { makeUtf8 } from '../../../src/record/chain/utf8';
import { checkSignature } from '../../../src/record/seal/ed25519';
import { createCheckpointSigner, makeKeyName, type CheckpointSigner } from '../../../src/record/seal/checkpoint-signer';

let names = 0;
const fresh = (name = `seals-${(names += 1)}`): CheckpointSigner =>
  createCheckpointSigner({ name, keyName: 'stowcall/loft/table-1/abc' });
const head = (size: number) => ({ size, root: makeHashHex(leafHash(Uint8Array.of(size))) });

function unwrap<T>(result: { ok: true; value: T } | { ok: false; detail: string }): T {
  if (!result.ok) throw new Error(result.detail);
  return result.value;
}

afterEach(() => vi.restoreAllMocks());

describe('a seal', () => {
  it('is a signed checkpoint of exactly that head, under the key that it names', async () => {
    const signer = fresh();
    const { note, signed } = unwrap(await signer.seal(head(7), ['pack 1']));
    expect(signed).toBe(true);
    const key = unwrap(parseKeyText(unwrap(await signer.keys())[0] ?? ''));
    const { text, signatures } = unwrap(parseNote(note));
    expect(unwrap(parseCheckpointText(text))).toMatchObject({ origin: key.name, size: 7, extensions: ['pack 1'] });
    expect(signatures[0]).toMatchObject({ name: key.name, keyId: key.keyId });
    expect(await checkSignature(key.publicKey, makeUtf8(text), signatures[0]!.signature)).toBe(true);
  });

  it('of an empty journal can be made', async () => {
    expect(unwrap(await fresh().seal({ size: 0, root: makeHashHex(emptyRoot()) })).signed).toBe(true);
  });

  it('is kept with its key across restarts, and not signed twice', async () => {
    const name = `seals-${(names += 1)}`;
    const first = unwrap(await fresh(name).seal(head(3), ['pack 1']));
    const again = fresh(name);
    expect(unwrap(await again.seal(head(3)))).toEqual(first);
    expect(unwrap(await again.all())).toEqual([first.note]);
    expect(unwrap(await again.keys())).toEqual(unwrap(await fresh(name).keys()));
  });

  it('of the same size and another root is refused: the journal was rewritten', async () => {
    const signer = fresh();
    await signer.seal(head(5));
    expect(await signer.seal({ ...head(6), size: 5 })).toMatchObject({ ok: false, reason: 'other-root' });
  });

  it('that comes with a restored journal is kept, and writes over none that is there', async () => {
    const [one, other] = [fresh(), fresh()];
    const notes = [unwrap(await one.seal(head(2))).note, unwrap(await one.seal(head(4))).note];
    const own = unwrap(await other.seal(head(4))).note;
    const [mine, yours] = [unwrap(await other.keys()), unwrap(await one.keys())];
    unwrap(await other.keep(notes, yours));
    expect(unwrap(await other.all())).toEqual([notes[0], own]);
    expect(unwrap(await other.keys())).toEqual([...yours, ...mine]);
  });

  it('is marked as unsigned where the browser has no Ed25519', async () => {
    vi.spyOn(crypto.subtle, 'generateKey').mockRejectedValue(new DOMException('no', 'NotSupportedError'));
    const signer = fresh();
    const { note, signed } = unwrap(await signer.seal(head(1)));
    expect(signed).toBe(false);
    expect(unwrap(parseCheckpointText(note)).extensions).toEqual([UNSIGNED_LINE]);
    expect(unwrap(await signer.keys())).toEqual([]);
    expect(unwrap(await signer.seal(head(1)))).toEqual({ note, signed });
  });

  it('that cannot be stored is refused with a reason', async () => {
    vi.spyOn(indexedDB, 'open').mockImplementation(() => {
      throw new DOMException('denied', 'SecurityError');
    });
    expect(await fresh().seal(head(1))).toMatchObject({ ok: false, reason: 'no-storage' });
  });
});

describe('the name of a key', () => {
  it.each([
    ['Quillhaven Rescue Loft', 'Table 1', '1F0C2a9b-77', 'stowcall/quillhaven-rescue-loft/table-1/1f0c2a9b-77'],
    ['', '+ +', 'x', 'stowcall/unnamed/unnamed/x'],
  ])('of "%s" "%s"', (...[loft, table, random, name]) => expect(makeKeyName(loft, table, random)).toBe(name));
});
