/** On a phone: a code and a name, and it is let in. Also what a device sees that was sent away. */
import { useMutation } from "@tanstack/react-query";
import { useEffect, useState } from "react";
import { me } from "../../api/sharing.ts";
import { keep, readKept } from "../keep/kept.ts";
import { TextField } from "../parts/field.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { ask, json } from "../shop/ask.ts";
import { errorAt } from "../shop/field-errors.ts";
import { pairText } from "../text/pairing.ts";

/** The code of a scanned address, and no trace of it in the address or the history. */
function codeFromAddress(): string {
  const code = decodeURIComponent(location.hash.slice(1));
  if (code !== "") history.replaceState(null, "", location.pathname);
  return code;
}

export function PairPage({ wasAway }: { wasAway: boolean }) {
  const [code, setCode] = useState("");
  useEffect(() => setCode((typed) => typed || codeFromAddress()), []);
  const kept = readKept("device name");
  const [name, setName] = useState(typeof kept === "string" ? kept : "");
  const [tried, setTried] = useState(false);
  const pair = useMutation({
    mutationFn: () => ask(me, "/api/pairing", json("POST", { code, name })),
    onSuccess: () => {
      keep("device name", name);
      // What this page knows is from before it was sent away, perhaps in another role.
      if (wasAway) location.reload();
    },
  });
  const missing = (typed: string, words: string) => (tried && typed.trim() === "" ? words : null);
  if (pair.data) return <Paired as={pairText.doneAs(pair.data.device.role)} />;
  return (
    <main>
      <h1>{wasAway ? pairText.away : pairText.title}</h1>
      <p>{wasAway ? pairText.awayMore : pairText.how}</p>
      {wasAway && <p>{pairText.how}</p>}
      <form
        onSubmit={(event) => {
          event.preventDefault();
          setTried(true);
          if (code.trim() !== "" && name.trim() !== "") pair.mutate();
        }}
      >
        <TextField
          label={pairText.code}
          hint={pairText.codeHint}
          value={code}
          onType={setCode}
          error={missing(code, pairText.codeMissing) ?? errorAt(pair.error, "/code")}
          autoComplete="off"
          autoCapitalize="characters"
          spellCheck={false}
        />
        <TextField
          label={pairText.name}
          hint={pairText.nameHint}
          value={name}
          onType={setName}
          error={missing(name, pairText.nameMissing) ?? errorAt(pair.error, "/name")}
          autoComplete="off"
        />
        <Trouble error={pair.error} shown={["/code", "/name"]} />
        <button type="submit" className="wet" disabled={pair.isPending}>
          {pairText.go}
        </button>
      </form>
    </main>
  );
}

/** A whole new page, so that it is installed and asks for everything as the device that it now is. */
function Paired({ as }: { as: string }) {
  return (
    <main>
      <h1>{pairText.done}</h1>
      <p>{as}</p>
      <a href="/" className="button wet">
        {pairText.toToday}
      </a>
    </main>
  );
}
