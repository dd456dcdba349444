import { useId, type ReactNode } from "react";

/** One line to type in, its label above it, a word under it. */
export function SecretField({
  label,
  value,
  type,
  name,
  hidden = true,
  complete = "off",
  how,
  focus = false,
}: {
  readonly label: string;
  readonly value: string;
  readonly type: (text: string) => void;
  readonly name: string;
  /** Whether what is typed is hidden as it is typed. */
  readonly hidden?: boolean;
  readonly complete?: string;
  readonly how?: string;
  readonly focus?: boolean;
}): ReactNode {
  const id = useId();
  return (
    <p className="secret-field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        ref={focus ? focusOnce : undefined}
        type={hidden ? "password" : "text"}
        value={value}
        autoComplete={complete}
        autoCapitalize="none"
        spellCheck={false}
        data-secret={name}
        aria-describedby={how ? `${id}-how` : undefined}
        onChange={({ target }) => type(target.value)}
      />
      {how ? (
        <span className="soft" id={`${id}-how`}>
          {how}
        </span>
      ) : null}
    </p>
  );
}

const focusOnce = (input: HTMLInputElement | null): void => input?.focus();
