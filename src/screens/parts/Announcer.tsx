/** Says what has changed to assistive technology: refusals at once, everything else when it is its turn. */
import type { ReactElement } from 'react';
import type { AppView } from '../contract/app-view';
import type { Notice, Prompt } from '../contract/pack-view';

interface Announcement {
  readonly urgent: string;
  readonly calm: string;
}

function announce(prompt: Prompt, notice: Notice | null, readBack: string | null): Announcement {
  const refusal = notice !== null && notice.tone === 'refusal' ? `Refused. ${notice.text}` : '';
  const other = notice !== null && notice.tone !== 'refusal' ? notice.text : '';
  return { urgent: refusal, calm: [other, readBack ?? '', prompt.show].filter((text) => text !== '').join(' ') };
}

/** The words for the two live regions. */
export function announcementOf(view: AppView): Announcement {
  switch (view.screen) {
    case 'pack':
      if (view.pin !== undefined && view.pin !== null)
        return { urgent: '', calm: `${view.pin.person}: enter your PIN on the pad.` };
      return announce(view.view.prompt, view.view.notice, view.view.readBack?.show ?? null);
    case 'rehearsal':
      return announce(view.view.prompt, view.view.notice, null);
    case 'enrol':
      return announce(view.enrol.prompt, view.enrol.notice, null);
    case 'tags':
      if (view.pin !== undefined && view.pin !== null)
        return { urgent: '', calm: `${view.pin.person}: enter your PIN on the pad.` };
      return announce(view.tags.prompt, view.tags.notice, null);
    case 'start':
      return { urgent: view.start.notice ?? '', calm: view.start.prompt.show };
    case 'fault':
      return { urgent: `${view.heading} ${view.text}`, calm: '' };
    case 'loading':
      return { urgent: '', calm: view.text };
    case 'records': {
      const { outcome } = view.records;
      return { urgent: '', calm: outcome === null ? '' : [outcome.heading, ...outcome.lines].join(' ') };
    }
    case 'secondTab':
    case 'licences':
      return { urgent: '', calm: '' };
  }
}

/** The two live regions. They are in the page from the beginning, as they must be to be noticed. */
export function Announcer({ view }: { readonly view: AppView }): ReactElement {
  const { urgent, calm } = announcementOf(view);
  return (
    <div className="unseen">
      <div aria-live="assertive" aria-atomic="true">
        {urgent}
      </div>
      <div aria-live="polite" aria-atomic="true">
        {calm}
      </div>
    </div>
  );
}
