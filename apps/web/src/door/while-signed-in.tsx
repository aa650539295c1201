import type { ComponentChildren } from 'preact';
import { hasEnded } from '../session/session.ts';
import { Notice } from '../looks/looks.tsx';
import { door as texts } from '../texts/door.ts';
import { Door } from './door.tsx';
import { SignInForm } from './sign-in-form.tsx';

/**
 * The page of whoever is signed in. Once their session has ended it is covered by the door: it is
 * neither seen nor heard, and what was typed waits in it for the same person.
 */
export function WhileSignedIn({ children }: { readonly children: ComponentChildren }) {
  const isOver = hasEnded.value;
  return (
    <>
      {isOver && (
        <Door title={texts.endedTitle}>
          <Notice isNews>
            <p>{texts.ended}</p>
          </Notice>
          <SignInForm onSignedIn={() => undefined} />
        </Door>
      )}
      <div hidden={isOver}>{children}</div>
    </>
  );
}
