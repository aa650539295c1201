import type { setUp as texts } from '../../texts/set-up.ts';

/** What the set-up consists of. */
export type Room = keyof typeof texts.rooms;
export type Group = keyof typeof texts.groups;
