# SPDX-License-Identifier: Apache-2.0
"""The car document: what the builder says."""
