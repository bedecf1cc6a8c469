# SPDX-License-Identifier: Apache-2.0
"""One file a step, in the order of their numbers."""
