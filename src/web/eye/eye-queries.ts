/** Tests of the eye, asked of the shop and sent to it. */
import { useMutation, useQuery, useQueryClient } from "@tanstack/react-query";
import * as z from "zod/mini";
import { eyeTest, type NewEyeTest } from "../../api/eye-test.ts";
import { ask, json } from "../shop/ask.ts";

export const useEyeTests = () =>
  useQuery({ queryKey: ["eye tests"], queryFn: () => ask(z.array(eyeTest), "/api/eye-tests") });

export function useKeepEyeTest(onKept: () => void) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (taken: NewEyeTest) => ask(eyeTest, "/api/eye-tests", json("POST", taken)),
    onSuccess: async () => {
      await client.invalidateQueries({ queryKey: ["eye tests"] });
      onKept();
    },
  });
}
