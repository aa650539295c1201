/* global document, fetch, history, location */

/** The link's secret stands after the #, which no server is sent; it goes out of the address too. */
const token = location.hash.slice(1);
history.replaceState(null, '', location.pathname);

const at = (id) => document.getElementById(id);
const told = at('told');
/** Of the session whose cookie the browser sends; undefined: not signed in. */
let csrf;
let pending;

/** Throws what the service says is wrong and what to do about it. */
async function call(method, path, body) {
  const answer = await fetch(`/api/v1/${path}`, {
    method,
    headers: {
      ...(body === undefined ? {} : { 'content-type': 'application/json' }),
      ...(csrf === undefined ? {} : { 'x-csrf-token': csrf }),
    },
    body: body === undefined ? undefined : JSON.stringify(body),
  }).catch(() => {
    throw new Error('The service cannot be reached. Try again in a moment.');
  });
  const said = answer.status === 204 ? {} : await answer.json();
  if (answer.ok) return said;
  const words = [said.title, said.detail, said.cure].filter(
    (one, i, all) => all.indexOf(one) === i,
  );
  throw new Error(words.join('. '));
}

function show(id) {
  for (const part of ['join', 'choice', 'factor']) at(part).hidden = part !== id;
}

/** What an element does at its event; what goes wrong is told below. */
function on(id, event, act) {
  at(id).addEventListener(event, async (happened) => {
    happened.preventDefault();
    told.textContent = '';
    const buttons = document.querySelectorAll('button');
    for (const button of buttons) button.disabled = true;
    try {
      await act();
    } catch (error) {
      told.textContent = error.message;
      told.scrollIntoView({ block: 'nearest' });
    }
    for (const button of buttons) button.disabled = false;
  });
}

async function accept(account = {}) {
  const { yard, person } = await call('POST', 'invitations/accept', { token, ...account });
  show();
  at('whereto').textContent = '';
  told.textContent = `You are in: ${person} of ${yard}. The link is used up.`;
}

async function signedIn(session) {
  pending = session.pending;
  if (pending !== undefined) return show('factor');
  csrf = session.csrf;
  at('who').textContent = at('known').value;
  show('join');
  await accept();
}

on('join', 'submit', () => accept());
on('leave', 'click', async () => {
  await call('DELETE', 'sessions/current');
  csrf = undefined;
  show('choice');
});
on('make', 'submit', () =>
  accept({
    name: at('name').value,
    password: at('fresh').value,
    ...(at('ask-email').hidden ? {} : { email: at('email').value }),
  }),
);
on('sign-in', 'submit', async () =>
  signedIn(
    await call('POST', 'sessions', { email: at('known').value, password: at('password').value }),
  ),
);
on('factor', 'submit', async () =>
  signedIn(await call('POST', 'sessions/second-factor', { pending, code: at('code').value })),
);

async function begin() {
  if (token === '') throw new Error('Open the whole link of your invitation, with what follows #.');
  const { yard, person, needsEmail } = await call('POST', 'invitations/preview', { token });
  at('whereto').textContent = `You are invited into ${yard}, as ${person}.`;
  at('name').value = person;
  at('ask-email').hidden = !needsEmail;
  at('email').required = needsEmail;
  const me = await call('GET', 'me').catch(() => undefined);
  csrf = me?.csrf;
  at('who').textContent = me?.email ?? '';
  show(csrf ? 'join' : 'choice');
}

begin().catch((error) => {
  told.textContent = error.message;
});
