/** Answers still under way, by device: when it is no longer let in, its live line and its uploads end with it. */
import type { ServerResponse } from "node:http";

export type OpenAnswers = {
  note(device: string, answer: ServerResponse): void /** All but the answer that tells of it. */;
  end(device: string, but?: ServerResponse): void;
};

export function openAnswers(): OpenAnswers {
  const open = new Map<string, Set<ServerResponse>>();
  return {
    note(device, answer) {
      const ofDevice = open.get(device) ?? new Set();
      open.set(device, ofDevice.add(answer));
      answer.once("close", () => {
        ofDevice.delete(answer);
        if (ofDevice.size === 0) open.delete(device);
      });
    },
    end(device, but) {
      for (const answer of open.get(device) ?? []) if (answer !== but) answer.socket?.destroy();
    },
  };
}
