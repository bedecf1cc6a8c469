# SPDX-License-Identifier: Apache-2.0
"""Where a line runs, and how long it is."""
