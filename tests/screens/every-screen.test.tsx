/** What must hold on every screen, whatever it shows. */
import { describe, expect, it } from 'vitest';
import { draw, readable, statusBarOf } from './drawn';
import { fixturesAt, STATUS_BARS } from './fixtures';
import { uncalledControls, uncontrolledCommands, unshownSentences } from './owed';

const NOW = Date.parse('2026-11-25T13:00:00Z');
const ALL = Object.entries(fixturesAt(NOW));

describe.each(ALL)('%s', (_, view) => {
  const markup = draw(view);
  const text = readable(markup);

  it('shows every sentence that is spoken', () => {
    expect(unshownSentences(view, markup)).toEqual([]);
  });

  it('has a touch control with its key for every legal command, and its phrase', () => {
    expect(uncontrolledCommands(view, markup)).toEqual([]);
  });

  it('offers no command that is not legal, and none twice', () => {
    expect(uncalledControls(view, markup)).toEqual([]);
  });

  it('asks for "affirm" or "negative" wherever something is read back, and shows what', () => {
    const readBack = view.screen === 'pack' ? view.view.readBack : null;
    if (readBack === null) {
      expect(markup).not.toContain('class="value');
      return;
    }
    expect(text).toContain(readBack.show);
    expect(markup).toMatch(/class="answers".*data-command="affirm".*data-command="negative"/s);
  });

  it('keeps its notice on the screen and says its tone in a word', () => {
    const packed = view.screen === 'pack' || view.screen === 'rehearsal' ? view.view.notice : null;
    const own = view.screen === 'tags' ? view.tags.notice : packed;
    const notice = view.screen === 'enrol' ? view.enrol.notice : own;
    if (notice === null) return;
    const word = { refusal: 'Refused.', warning: 'Warning.', answer: 'Answer.' }[notice.tone];
    expect(text).toContain(`${word} ${notice.text}`);
  });

  it('is one page with one heading, a main part and the status bar', () => {
    expect(markup.match(/<h1/g)).toHaveLength(1);
    expect(markup.match(/<main/g)).toHaveLength(1);
    expect(markup.match(/<footer/g)).toHaveLength(1);
  });

  it('has both live regions, the urgent one for refusals', () => {
    expect(markup).toMatch(/aria-live="assertive"[^>]*>[^<]*<\/div><div aria-live="polite"/);
    const notice = view.screen === 'pack' ? view.view.notice : null;
    if (notice?.tone !== 'refusal') return;
    const urgent = /aria-live="assertive"[^>]*>([^<]*)</.exec(markup)?.[1] ?? '';
    expect(readable(urgent)).toBe(`Refused. ${notice.text}`);
  });

  it('has no style attribute and no inline script: the page is served under a policy without them', () => {
    expect(markup).not.toMatch(/\sstyle=/);
    expect(markup).not.toMatch(/<style|<script|\son[a-z]+=/);
  });

  it('shows the live picture exactly where a scan is wanted', () => {
    const isBadgeWanted =
      view.screen === 'start' ||
      (view.screen === 'enrol' && view.enrol.step.at === 'badge') ||
      (view.screen === 'tags' && view.tags.step === 'badge');
    const wanted = isBadgeWanted || (view.screen === 'pack' && view.view.scan !== null);
    expect(markup.includes('<video')).toBe(wanted);
  });
});

describe('the status bar', () => {
  const [, view] = ALL[0] ?? [];
  it.each(Object.keys(STATUS_BARS))('says in words what ear, voice and camera do: %s', (name) => {
    if (view === undefined) throw new Error('there is a fixture');
    const statusBar = statusBarOf(name);
    const text = readable(draw(view, statusBar));
    const ear = { listening: 'Listening', closed: 'Ear closed', loading: 'Ear starting', off: 'Ear off' }[
      statusBar.ear
    ];
    expect(text).toContain(ear);
    expect(text).toContain(statusBar.speaking ? 'Speaking' : 'Silent');
    expect(text).toContain({ on: 'Camera on', off: 'Camera off', failed: 'Camera failed' }[statusBar.camera]);
    expect(text).toContain(`Last heard ${statusBar.heard ?? 'nothing yet'}`);
    for (const trouble of statusBar.trouble) expect(text).toContain(trouble);
  });
});
