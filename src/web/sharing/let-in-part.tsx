/** A code for one device, with its address for the camera; for an encrypted shop, whom to trust comes first. */
import { useMutation, useQueryClient } from "@tanstack/react-query";
import { useState } from "react";
import { type Device, type PairingCode, type PersonRole, pairingCode, type SharingState } from "../../api/sharing.ts";
import { QrCode } from "../parts/qr-code.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { ask, json, tell } from "../shop/ask.ts";
import { instantText } from "../text/parts.ts";
import { sharingText } from "../text/sharing.ts";

const roles = ["helper", "viewer", "owner"] as const;

export function LetInPart({ state, devices }: { state: SharingState; devices: Device[] }) {
  const [role, setRole] = useState<PersonRole>("helper");
  const client = useQueryClient();
  const refresh = () => client.invalidateQueries({ queryKey: ["sharing"] });
  const [before, setBefore] = useState<readonly string[]>([]);
  const open = useMutation({
    onMutate: () => setBefore(devices.map(({ id }) => id)),
    mutationFn: () => ask(pairingCode, "/api/pairing/code", json("POST", { role })),
    onSettled: refresh,
  });
  const close = useMutation({
    mutationFn: () => tell("/api/pairing/code", { method: "DELETE" }),
    onSettled: refresh,
    onSuccess: () => open.reset(),
  });
  const code = open.data;
  const stillOpen = code !== undefined && state.pairing?.expiresAt === code.expiresAt;
  const newcomer = devices.find(({ id }) => !before.includes(id));
  return (
    <section>
      <h2>{sharingText.letInTitle}</h2>
      {code && stillOpen && <OpenCode code={code} state={state} triesLeft={state.pairing?.triesLeft ?? 0} />}
      {code && !stillOpen && !open.isPending && (
        <p role="status">{newcomer ? sharingText.isIn(newcomer.name) : sharingText.codeGone}</p>
      )}
      {!stillOpen && <RoleChoice role={role} onChoose={setRole} />}
      <Trouble error={open.error ?? close.error} />
      <div className="actions">
        <button
          type="button"
          className={stillOpen ? "second wet" : "wet"}
          disabled={open.isPending}
          onClick={() => (stillOpen ? close : open).mutate()}
        >
          {stillOpen ? sharingText.noCode : code ? sharingText.newCode : sharingText.showCode}
        </button>
      </div>
    </section>
  );
}

function RoleChoice({ role, onChoose }: { role: PersonRole; onChoose: (role: PersonRole) => void }) {
  return (
    <fieldset className="either sharing-roles">
      <legend>{sharingText.as}</legend>
      {roles.map((one) => (
        <label key={one}>
          <input type="radio" name="role" checked={one === role} onChange={() => onChoose(one)} />
          <span>{sharingText.roles[one]}</span>
        </label>
      ))}
    </fieldset>
  );
}

function OpenCode({ code, state, triesLeft }: { code: PairingCode; state: SharingState; triesLeft: number }) {
  // Not as it was when the code was asked for: the machine may have another address by now.
  const address = `${state.addresses[0] ?? ""}pair`;
  const [trust] = state.trustAddresses;
  return (
    <>
      {trust && state.certificate && <TrustFirst address={trust} sha256={state.certificate.sha256} />}
      <div className="pairing-code">
        {/* Behind the sign "#", which no browser sends: the code reaches the shop only as what is typed. */}
        <QrCode text={`${address}#${code.code}`} label={sharingText.scanPair} />
        <div>
          <p>{sharingText.scanPair}</p>
          <p className="pairing-address">
            <code>{address}</code>
          </p>
          <p className="pairing-letters">
            <span className="sr-only">{sharingText.code}: </span>
            {code.code}
          </p>
          <p className="hint">{sharingText.codeUntil(instantText(code.expiresAt), triesLeft)}</p>
        </div>
      </div>
    </>
  );
}

function TrustFirst({ address, sha256 }: { address: string; sha256: string }) {
  return (
    <details className="more">
      <summary>{sharingText.firstTrust}</summary>
      <div className="pairing-code">
        <QrCode text={address} label={sharingText.scanTrust} />
        <div>
          <p>{sharingText.scanTrust}</p>
          <p className="pairing-address">
            <code>{address}</code>
          </p>
          <p>{sharingText.compare}</p>
          <code className="fingerprint">
            {sha256.match(/(..:?){1,8}/g)?.map((eight) => (
              <span key={eight}>{eight}</span>
            ))}
          </code>
        </div>
      </div>
    </details>
  );
}
