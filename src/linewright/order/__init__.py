# SPDX-License-Identifier: Apache-2.0
"""The cheapest purchases that cover a takeoff, net of the shelf."""
