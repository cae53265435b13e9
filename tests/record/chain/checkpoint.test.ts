/** Checkpoints against the example of C2SP tlog-checkpoint, and what is none. */
import { describe, expect, it } from 'vitest';
import { makeCheckpointText, parseCheckpointText } from '../../../src/record/chain/checkpoint';
import { parseNote } from '../../../src/record/chain/note';

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
    ['short root', sound.replace('CsUYapGG', '')],
    ['no origin', sound.replace('example.com/behind-the-sofa', '')],
    ['no end', sound.slice(0, -1)],
    ['an empty line below', `${sound}\n`],
    ['two lines', 'a\n1\n'],
  ])('%s', (_, text) => expect(parseCheckpointText(text)).toMatchObject({ ok: false, reason: 'not-a-checkpoint' }));

  it('further lines are kept', () => {
    const more = parseCheckpointText(`${sound}pack 7\nmore\n`);
    expect(more).toMatchObject({ ok: true, value: { extensions: ['pack 7', 'more'] } });
  });
});
