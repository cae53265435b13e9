/** The page opens its journal under one name of this machine: each name has a storage, and so a journal, of its own. */

const LOOPBACK = /^(127(\.\d{1,3}){3}|\[::1\])$/;

/** What to show where the page was opened under another name for this machine; null where it may begin. */
export function otherName(
  at: Pick<Location, 'hostname' | 'port'>,
): { readonly heading: string; readonly text: string } | null {
  if (!LOOPBACK.test(at.hostname)) return null;
  const port = at.port === '' ? '' : `:${at.port}`;
  const text = `Under this address the browser would keep a second, empty journal. Open http://localhost${port}/ instead.`;
  return { heading: 'Nothing can be packed here', text };
}
