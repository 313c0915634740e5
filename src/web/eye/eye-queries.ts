/** Tests of the eye, asked of the shop and sent to it. */
import { useMutation, useQuery, useQueryClient } from "@tanstack/react-query";
import * as z from "zod/mini";
import { eyeTest, type NewEyeTest, newEyeTest } from "../../api/eye-test.ts";
import { ask } from "../shop/ask.ts";
import { waitingText } from "../text/waiting.ts";
import { recordMessage } from "../waiting/send-waiting.ts";

export const useEyeTests = () =>
  useQuery({ queryKey: ["eye tests"], queryFn: () => ask(z.array(eyeTest), "/api/eye-tests") });

export function useKeepEyeTest(onKept: () => void) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (taken: NewEyeTest) =>
      recordMessage({
        id: taken.id,
        path: "/api/eye-tests",
        body: newEyeTest.parse(taken),
        words: waitingText.eyeTest(taken.read.length),
      }),
    onSuccess: async () => {
      await client.invalidateQueries({ queryKey: ["eye tests"] });
      onKept();
    },
  });
}
