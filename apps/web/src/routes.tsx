import type { AnyComponent } from 'preact';
import lazy from 'preact-iso/lazy';
import { Route, Router } from 'preact-iso/router';
import { InYard } from './frame/in-yard.tsx';
import { Refusal } from './frame/refusal.tsx';
import { person, type Role } from './session/session.ts';
import { common } from './texts/common.ts';

const pages = {
  home: lazy(() => import('./pages/home/home.tsx')),
  signIn: lazy(() => import('./pages/sign-in/sign-in.tsx')),
  password: lazy(() => import('./pages/password/password.tsx')),
  invitation: lazy(() => import('./pages/invitation/invitation.tsx')),
  account: lazy(() => import('./pages/account/account.tsx')),
  begin: lazy(() => import('./pages/begin/begin.tsx')),
  now: lazy(() => import('./pages/now/now.tsx')),
  week: lazy(() => import('./pages/week/week.tsx')),
  plans: lazy(() => import('./pages/plans/plans.tsx')),
  run: lazy(() => import('./pages/plans/run.tsx')),
  comparison: lazy(() => import('./pages/plans/comparison.tsx')),
  sheet: lazy(() => import('./pages/sheet/sheet.tsx')),
  desk: lazy(() => import('./pages/desk/desk.tsx')),
  setUp: lazy(() => import('./pages/set-up/set-up.tsx')),
  myBoat: lazy(() => import('./pages/my-boat/my-boat.tsx')),
};

/** For whoever is signed in; others are asked to, and come back here. */
function signedIn(Page: AnyComponent): AnyComponent {
  return function SignedIn(props) {
    return person.value === null ? <pages.signIn /> : <Page {...props} />;
  };
}

/** A page of `/yards/:yardId/…`, for some roles. It finds the yard by `useYard`, the rest of its address by `useRoute`. */
function ofYard(Page: AnyComponent, ...roles: readonly Role[]): AnyComponent {
  return signedIn(function OfYard(props) {
    const { yardId } = props as { readonly yardId: string };
    return (
      <InYard key={yardId} yardId={yardId} roles={roles}>
        <Page />
      </InYard>
    );
  });
}

const routes: readonly (readonly [path: string, component: AnyComponent])[] = [
  ['/', signedIn(pages.home)],
  ['/sign-in', pages.signIn],
  ['/password', pages.password],
  ['/invitation', pages.invitation],
  ['/account', signedIn(pages.account)],
  ['/begin', signedIn(pages.begin)],
  ['/yards/:yardId/now', ofYard(pages.now, 'builder')],
  ['/yards/:yardId/week', ofYard(pages.week, 'foreman')],
  ['/yards/:yardId/plans', ofYard(pages.plans, 'foreman')],
  ['/yards/:yardId/plans/runs/:runId', ofYard(pages.run, 'foreman')],
  ['/yards/:yardId/plans/:planId/against/:fromId?', ofYard(pages.comparison, 'foreman')],
  ['/yards/:yardId/plans/:planId/sheet', ofYard(pages.sheet, 'foreman')],
  ['/yards/:yardId/desk', ofYard(pages.desk, 'foreman')],
  ['/yards/:yardId/desk/:kind/:id?', ofYard(pages.desk, 'foreman')],
  ['/yards/:yardId/set-up', ofYard(pages.setUp, 'foreman')],
  ['/yards/:yardId/set-up/:room/:id?', ofYard(pages.setUp, 'foreman')],
  ['/yards/:yardId/my-boat', ofYard(pages.myBoat, 'owner')],
];

const NotFound = () => <Refusal title={common.notFound} cure={common.notFoundCure} />;

export const Routes = () => (
  <Router>
    {routes.map(([path, component]) => (
      <Route key={path} path={path} component={component} />
    ))}
    <Route default component={NotFound} />
  </Router>
);
