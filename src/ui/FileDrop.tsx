/** Takes files: by a button, or dropped on a place. */
import type { ComponentProps, ReactNode } from 'react';
import { useRef } from 'react';
import { Button } from './Button.tsx';
import { useFileDrop } from './use-file-drop.ts';
import styles from './FileDrop.module.css';

/** `webkitdirectory` under React's types, which do not know it. */
const wholeFolders = { multiple: true, webkitdirectory: '' };

interface ButtonProps extends Pick<ComponentProps<'input'>, 'accept' | 'multiple' | 'capture'> {
  readonly label: string;
  /** Where the input is called otherwise. */
  readonly inputLabel?: string;
  readonly look?: 'primary' | 'plain';
  /** A folder with all that lies in it. */
  readonly folder?: boolean;
  /** One at least. */
  onFiles(files: readonly [File, ...File[]]): void;
}

export const FileButton = ({
  label,
  inputLabel = label,
  look = 'plain',
  folder = false,
  onFiles,
  ...input
}: ButtonProps) => {
  const chooser = useRef<HTMLInputElement>(null);
  return (
    <>
      <Button look={look} onClick={() => chooser.current?.click()}>
        {label}
      </Button>
      <input
        ref={chooser}
        {...input}
        {...(folder ? wholeFolders : {})}
        type="file"
        aria-label={inputLabel}
        className="unseen"
        tabIndex={-1}
        onChange={({ target }) => {
          const [first, ...others] = target.files ?? [];
          // So that the same file can be chosen again.
          target.value = '';
          if (first !== undefined) onFiles([first, ...others]);
        }}
      />
    </>
  );
};

interface DropProps {
  /** Where the place looks otherwise; `data-over` is set while a file is over it. */
  readonly className?: string | undefined;
  readonly children: ReactNode;
  onFile(file: File): void;
}

/** A place that one file is dropped on. */
export const FileDrop = ({ className = styles['drop'], children, onFile }: DropProps) => {
  const { over, handlers } = useFileDrop(({ files: [file] }) => {
    if (file !== undefined) onFile(file);
  });
  return (
    <div data-own-drop="" className={className} data-over={over || undefined} {...handlers}>
      {children}
    </div>
  );
};
