/** Signed notes: the published examples of C2SP signed-note, tlog-checkpoint and of golang.org/x/mod/sumdb/note. */
import { base64 } from '@scure/base';
import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseBase64 } from '../../../src/record/chain/base64';
import { makeKey, makeKeyText, makeNote, parseKeyText, parseNote } from '../../../src/record/chain/note';
import { checkSignature, sign } from '../../../src/record/seal/ed25519';
import { privateKeyOf } from '../../fakes/signing-key';

/** golang.org/x/mod/sumdb/note, example in the package's documentation. */
const GO_KEY = 'PeterNeumann+c74f20a3+ARpc2QcUPDhMQegwxbzhKqiBfsVkmqq/LDE4izWy10TW';
const GO_SEED = 'AYEKFALVFGyNhPJEMzD1QIDr+Y7hfZx09iUvxdXHKDFz';
const GO_TEXT = "If you think cryptography is the answer to your problem,\nthen you don't know what your problem is.\n";
const GO_NOTE = `${GO_TEXT}
— PeterNeumann x08go/ZJkuBS9UG/SffcvIAQxVBtiFupLLr8pAcElZInNIuGUgYN1FFYC2pZSNXgKvqfqdngotpRZb6KE6RyyBwJnAM=
`;

/** C2SP signed-note, the example at its head: the text holds an empty line. */
const C2SP_NOTE = `Ognuno sta solo sul cuor della terra
trafitto da un raggio di sole:

ed è subito sera.

— quasimodo.example/salvatore NnugSzTjtVAewIS+Z/iJhUPeFDkO/5QQ2i5ddnGITLlC+EhfLW9oJKONrMouFSQU0xMcXxj99ihAQwaqP3ZekRwNtIc=
`;

/** C2SP signed-note, verifier keys, example. */
const SPEC_KEY = 'example.com/foo+530d903a+AekyeRrm56hApGFkyQR4ZCbV54Id2LKaANYcrnKv3U2k';
const SPEC_NOTE = `This is an example message.

— example.com/foo Uw2QOkn8srV1yJGh2VYRlL1Tnagv1YEq6TfXppzi2ONncAlTgK7Ztg1ERYNZXsYjOBH3mFXmRKuwHjG1Yu72IneyaQM=
`;

function unwrap<T>(result: { ok: true; value: T } | { ok: false; detail: string }): T {
  if (!result.ok) throw new Error(result.detail);
  return result.value;
}

const utf8 = (text: string): Uint8Array => Uint8Array.from(Buffer.from(text, 'utf8'));

describe('published notes', () => {
  it.each([
    ['golang.org/x/mod/sumdb/note', GO_NOTE, GO_KEY],
    ['C2SP signed-note, verifier keys', SPEC_NOTE, SPEC_KEY],
  ])('%s: key and signature fit', async (_, note, keyText) => {
    const { text, signatures } = unwrap(parseNote(note));
    const key = unwrap(parseKeyText(keyText));
    expect(signatures[0]).toMatchObject({ name: key.name, keyId: key.keyId });
    expect(await checkSignature(key.publicKey, utf8(text), signatures[0]!.signature)).toBe(true);
    expect(makeNote({ text, signatures })).toBe(note);
    expect(makeKeyText(key)).toBe(keyText);
    expect(makeKey(key.name, key.publicKey)).toEqual(key);
  });

  it('is signed byte for byte as published', async () => {
    const key = unwrap(parseKeyText(GO_KEY));
    const seed = unwrap(parseBase64(GO_SEED)).slice(1);
    const signature = await sign(await privateKeyOf(seed), utf8(GO_TEXT));
    expect(makeNote({ text: GO_TEXT, signatures: [{ ...key, signature }] })).toBe(GO_NOTE);
  });

  it('the last empty line divides text and signatures', () => {
    const { text, signatures } = unwrap(parseNote(C2SP_NOTE));
    expect(text.split('\n')).toHaveLength(5);
    expect(signatures).toHaveLength(1);
    expect(signatures[0]).toMatchObject({ name: 'quasimodo.example/salvatore', keyId: '367ba04b' });
  });
});

/** The one signature line of the published note. */
const SIGNED = GO_NOTE.slice(GO_NOTE.indexOf('—'));
/** The published note with a line before it that brings it to this length. */
const padded = (length: number): string => `${'x'.repeat(length - 1 - GO_NOTE.length)}\n${GO_NOTE}`;

describe('a note is refused', () => {
  it.each([
    ['without a signature', GO_TEXT + '\n'],
    ['without the empty line', GO_NOTE.replace('\n\n', '\n')],
    ['with a hyphen for the dash', GO_NOTE.replace('—', '-')],
    ['without its last line feed', GO_NOTE.slice(0, -1)],
    ['with a tab in its text', GO_NOTE.replace('you', 'you\t')],
    ['with a plus in the name', GO_NOTE.replace('PeterNeumann', 'Peter+Neumann')],
    ['with a signature that is no Base 64', GO_NOTE.replace('x08go', 'x08g!')],
    ['with a signature of four bytes', GO_NOTE.replace(/ x08go.*/, ' x08gow==')],
    ['with words behind the signature', GO_NOTE.replace('JnAM=', 'JnAM= more')],
    ['of enormous length', 'x\n'.repeat(11_000) + GO_NOTE],
    ['that is empty', ''],
    ['with words before the dash', GO_NOTE.replace('— Peter', '> — Peter')],
    ['with a line that is no signature among the others', GO_NOTE.replace('— Peter', 'Peter\n— Peter')],
    ['with half of a surrogate pair in its text', GO_NOTE.replace('you', 'y\ud83du')],
    ['with half of a surrogate pair in the name', GO_NOTE.replace('PeterNeumann', 'Peter\ud83d')],
    ['with a control character in the name', GO_NOTE.replace('PeterNeumann', 'Peter\u0001Neumann')],
    ['with 33 signatures', GO_TEXT + '\n' + SIGNED.repeat(33)],
    ['of one character more than a note has', padded(20_001)],
  ])('%s', (_, note) => {
    expect(parseNote(note)).toEqual({
      ok: false,
      reason: 'not-a-note',
      detail: 'This is no signed note; copy it again, from its first line to its last.',
    });
  });

  it('but not at the very bounds', () => {
    expect(unwrap(parseNote(GO_TEXT + '\n' + SIGNED.repeat(32))).signatures).toHaveLength(32);
    expect(padded(20_000)).toHaveLength(20_000);
    expect(parseNote(padded(20_000)).ok).toBe(true);
  });
});

/** The bytes of the published key, by the host's own Base 64. */
const KEY_BYTES = Uint8Array.from(Buffer.from(GO_KEY.split('+')[2] ?? '', 'base64')).slice(1);
/** A key's text with this type and these bytes, and the id that the published key has. */
const keyText = (type: number, bytes: Uint8Array): string =>
  `PeterNeumann+c74f20a3+${Buffer.of(type, ...bytes).toString('base64')}`;
/** A key with a long name and the id that it must have, by the host's own SHA-256. */
function longNamed(letters: number): string {
  const name = 'n'.repeat(letters);
  const id = createHash('sha256')
    .update(`${name}\n`)
    .update(Uint8Array.of(1, ...KEY_BYTES))
    .digest('hex')
    .slice(0, 8);
  return `${name}+${id}+${Buffer.of(1, ...KEY_BYTES).toString('base64')}`;
}

describe('a key is refused', () => {
  it.each([
    ['with another id', GO_KEY.replace('c74f20a3', 'c74f20a4')],
    ['with its id in capitals', GO_KEY.replace('c74f20a3', 'C74F20A3')],
    ['of another type', GO_KEY.replace('+AR', '+AB')],
    ['cut short', GO_KEY.slice(0, -4)],
    ['with a space in its name', GO_KEY.replace('PeterNeumann', 'Peter Neumann')],
    ['without a name', GO_KEY.replace('PeterNeumann', '')],
    ['with a control character in its name', GO_KEY.replace('Peter', 'Peter\u0001')],
    ['with half of a surrogate pair in its name', GO_KEY.replace('Peter', 'Peter\ud83d')],
    ['with words behind it', `${GO_KEY} more`],
    ['with a part behind it', `${GO_KEY}+more`],
    ['with a part before it', `more+${GO_KEY}`],
    ['with a line before it', `key\n${GO_KEY}`],
    ['of another type under the id of ours', keyText(2, KEY_BYTES)],
    ['of one byte too many', keyText(1, Uint8Array.of(...KEY_BYTES, 7))],
    ['of one byte too few', keyText(1, KEY_BYTES.slice(1))],
    ['that is no Base 64', `${GO_KEY.slice(0, -1)}=`],
    ['with a name of 401 letters', longNamed(401)],
    ['that is empty', ''],
  ])('%s', (_, key) => {
    expect(parseKeyText(key)).toEqual({
      ok: false,
      reason: 'not-a-key',
      detail: 'This is no key of a kiosk; copy it again, whole and on one line.',
    });
  });

  it('but not with the longest name', () => {
    expect(keyText(1, KEY_BYTES)).toBe(GO_KEY);
    expect(parseKeyText(longNamed(400)).ok).toBe(true);
  });
});

describe('what could not be read again is never made', () => {
  const signature = { name: 'loft', keyId: '0123abcd', signature: Uint8Array.of(1) };
  it.each<[string, () => unknown, string]>([
    ['a key with a blank in its name', () => makeKey('my loft', KEY_BYTES), 'a name and 32 bytes'],
    ['a key without a name', () => makeKey('', KEY_BYTES), 'a name and 32 bytes'],
    ['a key cut short', () => makeKey('loft', KEY_BYTES.slice(1)), 'a name and 32 bytes'],
    ['a note without a signature', () => makeNote({ text: 'x\n', signatures: [] }), 'lines of text with a signature'],
    ['a note without a line end', () => makeNote({ text: 'x', signatures: [signature] }), 'lines of text'],
    ['a note with a tab', () => makeNote({ text: 'x\ty\n', signatures: [signature] }), 'lines of text'],
    [
      'a nameless signature',
      () => makeNote({ text: 'x\n', signatures: [{ ...signature, name: '' }] }),
      'names its key',
    ],
    [
      'an id with a figure too many',
      () => makeNote({ text: 'x\n', signatures: [{ ...signature, keyId: '0123abcd0' }] }),
      'names its key',
    ],
    [
      'an id with a letter before it',
      () => makeNote({ text: 'x\n', signatures: [{ ...signature, keyId: 'x0123abcd' }] }),
      'names its key',
    ],
  ])('%s', (_, make, belief) => {
    expect(make).toThrow(belief);
  });
});

describe('Base 64 of RFC 4648 section 10', () => {
  it.each([
    ['', ''],
    ['f', 'Zg=='],
    ['fo', 'Zm8='],
    ['foo', 'Zm9v'],
    ['foob', 'Zm9vYg=='],
    ['fooba', 'Zm9vYmE='],
    ['foobar', 'Zm9vYmFy'],
  ])('"%s" is "%s" and back', (text, code) => {
    expect(base64.encode(utf8(text))).toBe(code);
    expect(unwrap(parseBase64(code))).toEqual(utf8(text));
  });

  it('says what to do with what is none', () => {
    expect(parseBase64('A')).toMatchObject({
      reason: 'not-base64',
      detail: 'This is not Base 64; check that it was copied whole.',
    });
  });
});

describe('round trips', () => {
  it('Base 64 of any bytes, and nothing else is Base 64', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 100 }), (bytes) => {
        const text = base64.encode(bytes);
        expect(text).toBe(Buffer.from(bytes).toString('base64'));
        expect(unwrap(parseBase64(text))).toEqual(bytes);
      }),
    );
    const none = [
      'A',
      'AA',
      'AA=',
      'AB==',
      'AAB=',
      'AA==AA==',
      'A A=',
      'AA-_',
      '=',
      '====',
      'A===',
      'AAAA=',
      'AAA\u00e4',
      ' AAAA',
    ];
    for (const text of none) {
      expect(parseBase64(text).ok, text).toBe(false);
    }
  });

  it('a note of any lines', () => {
    const line = fc.string({ maxLength: 30 }).map((text) => text.replace(/[^ -~]/g, '.'));
    const signature = fc.record({
      name: fc.stringMatching(/^[a-z./]{1,20}$/),
      keyId: fc.stringMatching(/^[0-9a-f]{8}$/),
      signature: fc.uint8Array({ minLength: 1, maxLength: 70 }),
    });
    fc.assert(
      fc.property(
        fc.array(line, { minLength: 1, maxLength: 5 }),
        fc.array(signature, { minLength: 1, maxLength: 3 }),
        (lines, signatures) => {
          const note = { text: `${lines.join('\n')}\n`, signatures };
          expect(unwrap(parseNote(makeNote(note)))).toEqual(note);
        },
      ),
    );
  });

  it('anything at all is answered, never thrown', () => {
    fc.assert(fc.property(fc.string(), (text) => void expect(typeof parseNote(text).ok).toBe('boolean')));
    fc.assert(fc.property(fc.string(), (text) => void expect(typeof parseKeyText(text).ok).toBe('boolean')));
  });
});
