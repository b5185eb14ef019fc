"""Pitch and bounce of a body on two axles, against numpy's eigenvectors, for bodies of any kind."""

import numpy as np
import pytest
from cornerbook.catalogue import call

from tests.authorities.ride_by_eigenvectors import motions
from tests.catalogue.test_bad_input import said

GRAVITY = 9806.65


def test_any_body():
    draw = np.random.default_rng(14)
    seen = set()
    for _ in range(60):
        share, radius = draw.uniform(0.3, 0.7), draw.uniform(350.0, 1200.0)
        rates = draw.uniform(8.0, 200.0, 2)
        body = (2600.0, float(share), 1600.0, float(radius), *map(float, rates))
        found = motions(*body, GRAVITY)
        for mode, (frequency, centre) in found.items():
            ours = call("PITCH_BOUNCE_FREQUENCY", mode, *body, GRAVITY)
            assert ours == pytest.approx(frequency, rel=1e-9)
            assert call("PITCH_BOUNCE_CENTRE", mode, *body) == pytest.approx(centre, rel=1e-6)
        seen.add(found["pitch"][0] > found["bounce"][0])
    # Either may be the quicker one.
    assert seen == {True, False}


def test_a_body_that_bounces_level_is_said():
    body = (2600.0, 0.5, 1600.0, 600.0, 20.0, 20.0)
    said(call("PITCH_BOUNCE_CENTRE", "bounce", *body), "level", "nowhere")
    assert call("PITCH_BOUNCE_CENTRE", "pitch", *body) == 0.0
    alone = call("RIDE_FREQUENCY", 80.0, 2600.0, GRAVITY)
    assert call("PITCH_BOUNCE_FREQUENCY", "bounce", *body, GRAVITY) == pytest.approx(alone)
