import type { ReactNode } from 'react';

/** A key that takes in a CSV file and hands on its text. */
export function CsvFile({
  onText,
  children = 'From CSV',
}: {
  readonly onText: (text: string) => void;
  readonly children?: string;
}): ReactNode {
  return (
    <label className="key box-file">
      {children}
      <input
        type="file"
        accept=".csv,text/csv"
        onChange={(event) => {
          const file = event.currentTarget.files?.[0];
          event.currentTarget.value = '';
          void file?.text().then(onText);
        }}
      />
    </label>
  );
}
