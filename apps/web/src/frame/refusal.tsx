import { ButtonLink, Stack } from '../looks/looks.tsx';
import { common } from '../texts/common.ts';

/** A page that says why there is none. */
export const Refusal = ({ title, cure }: { readonly title: string; readonly cure: string }) => (
  <Stack>
    <h1>{title}</h1>
    <p>{cure}</p>
    <div>
      <ButtonLink to="/">{common.back}</ButtonLink>
    </div>
  </Stack>
);
