import { render } from 'preact';
import { ErrorBoundary } from 'preact-iso/lazy';
import { LocationProvider } from 'preact-iso/router';
import { WhileSignedIn } from './door/while-signed-in.tsx';
import { OrFailure } from './frame/failure.tsx';
import { Frame } from './frame/frame.tsx';
import './looks/base.css';
import { Busy } from './looks/looks.tsx';
import { beginSending } from './offline/sender.ts';
import { Routes } from './routes.tsx';
import { findOut, person } from './session/session.ts';
import { keepShell } from './shell/register.ts';

function App() {
  return (
    <LocationProvider>
      <Frame>
        <OrFailure>
          <ErrorBoundary>
            {person.value === undefined ? (
              <Busy />
            ) : (
              <WhileSignedIn>
                {/* Another person's page begins anew. */}
                <Routes key={person.value?.id ?? ''} />
              </WhileSignedIn>
            )}
          </ErrorBoundary>
        </OrFailure>
      </Frame>
    </LocationProvider>
  );
}

const page = document.getElementById('page');
if (page !== null) render(<App />, page);
keepShell();
beginSending();
void findOut();
