# SPDX-License-Identifier: Apache-2.0
"""What to draw, as primitives in millimetres on paper."""
