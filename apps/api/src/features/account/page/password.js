/* global document, fetch, history, location */

/** The link's secret stands after the #, which no server is sent; it goes out of the address too. */
const token = location.hash.slice(1);
history.replaceState(null, '', location.pathname);

const at = (id) => document.getElementById(id);
const told = at('told');

/** What the service says is wrong and what to do about it; undefined where all went well. */
async function refusalOf(path, body) {
  const answer = await fetch(`/api/v1/${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  if (answer.ok) return undefined;
  const { title, detail, cure } = await answer.json();
  return [title, detail, cure].filter((words, i, all) => all.indexOf(words) === i).join('. ');
}

function onSubmit(form, path, bodyOf, done) {
  form.hidden = false;
  form.addEventListener('submit', async (event) => {
    event.preventDefault();
    const button = form.querySelector('button');
    button.disabled = true;
    told.textContent = '';
    try {
      const refusal = await refusalOf(path, bodyOf());
      form.hidden = refusal === undefined;
      told.textContent = refusal ?? done;
    } catch {
      told.textContent = 'The service cannot be reached. Try again in a moment.';
    }
    button.disabled = false;
  });
}

if (token === '') {
  onSubmit(
    at('ask'),
    'password-resets',
    () => ({ email: at('email').value }),
    'If there is an account under this address, a link is on its way. It works for an hour.',
  );
} else {
  const password = at('password');
  at('show').addEventListener('change', ({ target }) => {
    password.type = target.checked ? 'text' : 'password';
  });
  onSubmit(
    at('choose'),
    'password-resets/complete',
    () => ({ token, password: password.value }),
    'The password is set, and you are signed out everywhere. Sign in with the new one.',
  );
}
