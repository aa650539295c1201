import { useLocation } from 'preact-iso/router';
import { useEffect } from 'preact/hooks';
import { Door } from '../../door/door.tsx';
import { SignInForm } from '../../door/sign-in-form.tsx';
import { person } from '../../session/session.ts';
import { door } from '../../texts/door.ts';

/**
 * Stands at its own address, and in the place of any page that wants somebody signed in: then the
 * address stays, and the page comes as soon as they are.
 */
export default function SignIn() {
  const { path, route } = useLocation();
  const isIn = Boolean(person.value);
  useEffect(() => {
    if (isIn && path === '/sign-in') route('/', true);
  }, [isIn, path]);
  return (
    <Door title={door.title}>
      <SignInForm onSignedIn={() => undefined} />
    </Door>
  );
}
