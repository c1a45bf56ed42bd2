"""What the workflows of ``coupon`` came to, in words."""
