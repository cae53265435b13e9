/** A refusal, warning or answer. It stays until the next accepted act. */
import type { ReactElement } from 'react';
import type { Notice } from '../contract/pack-view';
import { AnswerMark, CautionMark, TagMark } from './Shapes';
import { Words } from './Words';

const WORDS: Readonly<Record<Notice['tone'], string>> = { refusal: 'Refused', warning: 'Warning', answer: 'Answer' };

/** Longer texts are set smaller, still to be read from two metres. */
const SHORT = 80;

interface NoticePanelProps {
  readonly notice: Notice;
}

/** The panel: mark, word and text; the tone shows in all three. */
export function NoticePanel({ notice }: NoticePanelProps): ReactElement {
  return (
    <div className={`notice notice-${notice.tone} ${notice.text.length > SHORT ? 'notice-long' : ''}`.trim()}>
      {notice.tone === 'refusal' ? <TagMark /> : notice.tone === 'warning' ? <CautionMark /> : <AnswerMark />}
      <p>
        <strong>{WORDS[notice.tone]}.</strong> <Words text={notice.text} />
      </p>
    </div>
  );
}
