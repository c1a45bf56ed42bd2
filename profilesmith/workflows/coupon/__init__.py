"""Coupons as goals: plan, next, judge, tell. Files and days; what prints tell is worked out in ``coupon/``."""
