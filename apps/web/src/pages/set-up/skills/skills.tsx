import { type ComponentChildren, createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { Schema } from '../../../api/client.ts';
import { people as texts } from '../../../texts/set-up-people.ts';
import { useList } from '../lists/lists.ts';
import { RecordRoom } from '../record/record-list.tsx';
import type { RoomOf } from '../record/record-page.tsx';
import css from '../set-up.module.css';
import { type Skill, skills, type SkillValues } from './collection.ts';

const Everybody = createContext<readonly Schema<'Person'>[] | undefined>(undefined);

function WithPeople({ children }: { readonly children: ComponentChildren }) {
  return <Everybody.Provider value={useList('people').data}>{children}</Everybody.Provider>;
}

/** Who can do it. */
function Line({ record: { id } }: { readonly record: Skill }) {
  const everybody = useContext(Everybody);
  if (everybody === undefined) return null;
  const able = everybody.filter(({ abilities }) => abilities.some(({ skill }) => skill === id));
  return (
    <>{able.length === 0 ? texts.skillNobody : texts.skillHad(able.map(({ name }) => name))}</>
  );
}

const room: RoomOf<Skill, SkillValues> = {
  room: 'skills',
  collection: skills,
  newTitle: texts.newSkill,
  Around: WithPeople,
  Line,
  Fields: () => <p class={css['soft']}>{texts.newSkillHint}</p>,
};

export default function Skills() {
  return <RecordRoom of={room} />;
}
