"""What members, joints and the frame carry under a load, and how the wheel turns as they give."""
