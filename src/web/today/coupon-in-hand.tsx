/** The number on the coupon in one's hand: typed, it leads to its inspection. */
import { useState } from "react";
import { useLocation } from "wouter";
import { TextField } from "../parts/field.tsx";
import { findCouponText } from "../text/find-coupon.ts";

export function CouponInHand() {
  const [coupon, setCoupon] = useState("");
  const [, navigate] = useLocation();
  return (
    <form
      className="coupon-in-hand"
      onSubmit={(event) => {
        event.preventDefault();
        if (coupon.trim() !== "") navigate(`/c/${encodeURIComponent(coupon.trim())}`);
      }}
    >
      <TextField label={findCouponText.label} value={coupon} onType={setCoupon} autoComplete="off" enterKeyHint="go" />
      <button type="submit" className="second wet">
        {findCouponText.go}
      </button>
    </form>
  );
}
