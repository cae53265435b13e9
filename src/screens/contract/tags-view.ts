/** The page of open tags. Its types are those of the tag rules, which compute it. */
export type { TagLine, TagsView } from '../../packing/tags/tags-view';
