# SPDX-License-Identifier: Apache-2.0
"""The generic parts of the trade, generated from the tables."""
