import type { ComponentChildren } from 'preact';
import { useErrorBoundary } from 'preact/hooks';
import { Button, Stack } from '../looks/looks.tsx';
import { common } from '../texts/common.ts';

/** A page that throws gives way to this one; the frame around it stays. */
export function OrFailure({ children }: { readonly children: ComponentChildren }) {
  const failure: readonly unknown[] = useErrorBoundary();
  if (failure[0] === undefined) return <>{children}</>;
  return (
    <Stack>
      <h1>{common.broken}</h1>
      <p role="alert">{common.brokenCure}</p>
      <div>
        <Button
          kind="do"
          onPress={() => {
            location.reload();
          }}
        >
          {common.again}
        </Button>
      </div>
    </Stack>
  );
}
