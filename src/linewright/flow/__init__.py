# SPDX-License-Identifier: Apache-2.0
"""Flow, pressure and heat of every system, in every condition."""
