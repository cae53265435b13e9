/** Checkpoints against the example of C2SP tlog-checkpoint, and what is none. */
import { base64 } from '@scure/base';
import { describe, expect, it } from 'vitest';
import {
  makeCheckpointText,
  parseCheckpointText,
  UNSIGNED_LINE,
  type Checkpoint,
} from '../../../src/record/chain/checkpoint';
import { leafHash } from '../../../src/record/chain/hash';
import { parseNote } from '../../../src/record/chain/note';
import { parseSealedCheckpoint } from '../../../src/record/chain/sealed-checkpoint';

const PUBLISHED = `example.com/behind-the-sofa
20852163
CsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=

— example.com/behind-the-sofa Az3grlgtzPICa5OS8npVmf1Myq/5IZniMp+ZJurmRDeOoRDe4URYN7u5/Zhcyv2q1gGzGku9nTo+zyWE+xeMcTOAYQ8=
`;

describe('the published checkpoint', () => {
  it('is read, and written back byte for byte', () => {
    const note = parseNote(PUBLISHED);
    if (!note.ok) throw new Error(note.detail);
    const checkpoint = parseCheckpointText(note.value.text);
    if (!checkpoint.ok) throw new Error(checkpoint.detail);
    expect(checkpoint.value).toMatchObject({ origin: 'example.com/behind-the-sofa', size: 20852163, extensions: [] });
    expect(Buffer.from(checkpoint.value.root).toString('hex')).toBe(
      '0ac5186a91863e8e1d90c808014aa89bf5da8e3ee1d9f07630f0378f68f1ab62',
    );
    expect(makeCheckpointText(checkpoint.value)).toBe(note.value.text);
  });
});

describe('no checkpoint', () => {
  const sound = PUBLISHED.slice(0, PUBLISHED.indexOf('\n\n') + 1);
  it.each([
    ['size with a leading zero', sound.replace('20852163', '020852163')],
    ['size with a sign', sound.replace('20852163', '+20852163')],
    ['size beyond reckoning', sound.replace('20852163', '99999999999999999')],
    ['size that would be read as another', sound.replace('20852163', '9007199254740993')],
    ['size with letters behind it', sound.replace('20852163', '20852163x')],
    ['size that is no number', sound.replace('20852163', 'x')],
    ['no size', sound.replace('20852163', '')],
    ['root that is no Base 64', sound.replace('CsUYapGG', 'CsUYapG!')],
    ['nothing at all', ''],
    ['short root', sound.replace('CsUYapGG', '')],
    ['no origin', sound.replace('example.com/behind-the-sofa', '')],
    ['no end', sound.slice(0, -1)],
    ['an empty line below', `${sound}\n`],
    ['two lines', 'a\n1\n'],
  ])('%s', (_, text) => expect(parseCheckpointText(text)).toMatchObject({ ok: false, reason: 'not-a-checkpoint' }));

  it('says what to do', () => {
    expect(parseCheckpointText('')).toMatchObject({
      detail: 'This is no checkpoint of a journal; copy it again, from its first line.',
    });
  });

  it.each([
    ['0', 0],
    ['9007199254740991', Number.MAX_SAFE_INTEGER],
  ])('size %s is one', (text, size) => {
    expect(parseCheckpointText(sound.replace('20852163', text))).toMatchObject({ ok: true, value: { size } });
  });

  it('further lines are kept', () => {
    const more = parseCheckpointText(`${sound}pack 7\nmore\n`);
    expect(more).toMatchObject({ ok: true, value: { extensions: ['pack 7', 'more'] } });
  });
});

describe('a checkpoint that cannot be read again is never made', () => {
  const root = leafHash(Uint8Array.of(1));
  const sound: Checkpoint = { origin: 'loft', size: 0, root, extensions: ['pack 7'] };
  it.each<[string, Partial<Checkpoint>, string]>([
    ['half a fact', { size: 0.5 }, 'has a size and a root'],
    ['fewer than no facts', { size: -1 }, 'has a size and a root'],
    ['a root cut short', { root: root.slice(1) }, 'has a size and a root'],
    ['no name', { origin: '' }, 'lines that are not empty'],
    ['a name of two lines', { origin: 'loft\n7' }, 'lines that are not empty'],
    ['an empty further line', { extensions: ['pack 7', ''] }, 'lines that are not empty'],
    ['a further line that is two', { extensions: ['pack 7\nmore'] }, 'lines that are not empty'],
  ])('%s', (_, change, belief) => {
    expect(makeCheckpointText(sound)).toBe(`loft\n0\n${base64.encode(root)}\npack 7\n`);
    expect(() => makeCheckpointText({ ...sound, ...change })).toThrow(belief);
  });
});

describe('a checkpoint as it is kept', () => {
  it('has its signatures where it is signed', () => {
    expect(parseSealedCheckpoint(PUBLISHED)).toMatchObject({
      ok: true,
      value: { checkpoint: { size: 20852163 }, signatures: [{ name: 'example.com/behind-the-sofa' }] },
    });
  });

  it('has none where nobody could sign', () => {
    const bare = PUBLISHED.slice(0, PUBLISHED.indexOf('\n\n') + 1) + `${UNSIGNED_LINE}\n`;
    expect(parseSealedCheckpoint(bare)).toMatchObject({
      ok: true,
      value: { checkpoint: { extensions: ['unsigned: this browser has no Ed25519'] }, signatures: [] },
    });
  });

  it('is refused where the signed text is no checkpoint', () => {
    const other = PUBLISHED.replace('20852163', 'many');
    expect(parseSealedCheckpoint(other)).toMatchObject({ ok: false, reason: 'not-a-checkpoint' });
  });
});
