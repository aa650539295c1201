import { useState } from 'preact/hooks';
import { CheckField, TextField } from '../form/fields.tsx';
import { Stack } from '../looks/looks.tsx';
import { door as texts } from '../texts/door.ts';

/** A password, hidden until it is to be seen. `isNew`: one is being chosen. */
export function PasswordField({
  label,
  isNew = false,
  ...field
}: {
  readonly label?: string;
  readonly isNew?: boolean;
  readonly value: string;
  readonly onValue: (value: string) => void;
  readonly fault: string | undefined;
}) {
  const [isShown, setShown] = useState(false);
  return (
    <Stack>
      <TextField
        {...field}
        label={label ?? (isNew ? texts.newPassword : texts.password)}
        hint={isNew ? texts.newPasswordHint : undefined}
        type={isShown ? 'text' : 'password'}
        autocomplete={isNew ? 'new-password' : 'current-password'}
        required
      />
      {isNew && <CheckField label={texts.showPassword} value={isShown} onValue={setShown} />}
    </Stack>
  );
}
