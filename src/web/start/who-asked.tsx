import { Modal, TextInput } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import { useSignal } from '../bench/signal.ts';
import { asking } from '../bench/who.ts';
import { Key } from '../frame/key.tsx';

/** Asked once on each screen, when the first change is made: whose name goes on it. */
export function WhoAsked(): ReactNode {
  const answer = useSignal(asking);
  const [name, setName] = useState('');
  return (
    <Modal opened={answer !== null} onClose={() => answer?.(null)} title="Who is making this change?">
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (name.trim() !== '') answer?.(name.trim());
        }}
      >
        <TextInput
          label="Name, as it goes into the history"
          description="Kept on this screen only; no password"
          value={name}
          maxLength={60}
          data-autofocus
          onChange={(event) => setName(event.currentTarget.value)}
        />
        <div className="keys" style={{ marginTop: '0.9rem' }}>
          <Key type="submit" weight="do" disabled={name.trim() === ''}>
            Go on
          </Key>
          <Key onClick={() => answer?.(null)}>Leave it</Key>
        </div>
      </form>
    </Modal>
  );
}
